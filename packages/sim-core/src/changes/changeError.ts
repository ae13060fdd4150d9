import { describeProblem, InputError, type Problem } from '../errors/index.js';

/** A problem with the change it comes from. */
export interface ChangeProblem extends Problem {
  /** The change as it was typed, such as `--set modules.tipper.basket=-5`. */
  readonly change: string;
}

/**
 * Changes that cannot be made, or after which the scenario cannot be used. Each line of the message begins with the change
 * that it is about.
 *
 * @example
 * new ChangeError([{ change: '--swap a,b', code: 'unknown_name', path: '', rule: 'there is no module "a" here' }]).message // => '--swap a,b: there is no module "a" here.'
 */
export class ChangeError extends InputError {
  declare readonly problems: readonly ChangeProblem[];

  constructor(problems: readonly ChangeProblem[]) {
    super(problems);
    this.message = problems.map(describeChangeProblem).join('\n');
  }
}

function describeChangeProblem(problem: ChangeProblem): string {
  const { change, ...rest } = problem;
  // The change may hold anything that can be typed: what would move the cursor must not get to the screen.
  return `${change.replaceAll(/[\p{Cc}\u2028\u2029\u202A-\u202E\u2066-\u2069]/gu, ' ')}: ${describeProblem(rest)}`;
}
