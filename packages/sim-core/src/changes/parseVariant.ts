import { suggest } from '../scenario/index.js';
import type { Change } from './change.js';
import { ChangeError, type ChangeProblem } from './changeError.js';
import { CHANGE_OPTIONS, parseChanges, type TypedOption } from './parseChanges.js';

/** Changes that belong together, with the name that was given to them. */
export interface Variant {
  readonly name?: string;
  readonly changes: readonly Change[];
}

/**
 * Reads a variant written as on a command line: options that change a scenario, each with its value up to the next one, so
 * that no quotes are needed inside. A name may stand before them, with a colon behind it.
 *
 * @throws ChangeError with everything in it that cannot be read
 * @example
 * parseVariant('two minders: --set crew.minders=2').name // => 'two minders'
 * @example
 * parseVariant('--set modules.tipper.cycle=9 s --swap tipper,wheel').changes[0] // => { kind: 'set', path: 'modules.tipper.cycle', value: '9 s' }
 */
export function parseVariant(text: string): Variant {
  const [head = '', ...parts] = text.split(/(?:^|\s)--(?=[A-Za-z])/);
  const problems: ChangeProblem[] = [];
  const refuse = (rule: string, hint: string): void =>
    void problems.push({ code: 'syntax', path: '', change: `variant "${text.slice(0, 80)}"`, rule, hint });
  const before = head.trim();
  if (parts.length === 0)
    refuse('it changes nothing', 'Write such as "--set crew.minders=2 --swap tipper,wheel".');
  else if (before !== '' && !/^[^:]{1,60}:$/.test(before))
    refuse(
      `"${before.slice(0, 60)}" stands before the first change`,
      'A name of up to 60 letters may stand there, with a colon behind it.',
    );
  const typed = parts.flatMap((part): TypedOption[] => {
    const [, word = '', value = ''] = /^([A-Za-z-]+)(?:\s+|=|$)([\s\S]*)$/.exec(part) ?? [];
    const option = CHANGE_OPTIONS.find((known) => known === word);
    if (option !== undefined) return [{ option, value: unquoted(value.trim()) }];
    const shown = word === '' ? part : word;
    refuse(`--${shown.slice(0, 60)} is no option that changes a scenario`, suggest(shown, CHANGE_OPTIONS));
    return [];
  });
  if (problems.length > 0) throw new ChangeError(problems);
  const name = before.slice(0, -1).trim();
  return { ...(name !== '' && { name }), changes: parseChanges(typed) };
}

/** A value as a shell would give it. */
function unquoted(value: string): string {
  const [, , inner] = /^(["'])([\s\S]*)\1$/.exec(value) ?? [];
  return inner ?? value;
}
