import { InputError, type Problem } from '../../errors/index.js';

/** Something wrong with an argument: which one, what is wrong, what to write instead. */
export function argumentFault(
  path: string,
  rule: string,
  hint: string,
  code: Problem['code'] = 'contradiction',
): InputError {
  return new InputError([{ code, path, rule, hint }]);
}
