import { describeProblem, type Problem } from './problem.js';

/**
 * What a person wrote cannot be used. Carries every problem found, not only the first.
 *
 * The command line prints the message and exits with code 2.
 *
 * @example
 * new InputError([{ code: 'missing_key', path: 'modules', rule: 'a scenario needs at least one module' }]).message // => 'modules: a scenario needs at least one module.'
 */
export class InputError extends Error {
  override readonly name = 'InputError';
  readonly problems: readonly Problem[];

  constructor(problems: readonly Problem[]) {
    super(problems.map(describeProblem).join('\n'));
    this.problems = problems;
  }
}
