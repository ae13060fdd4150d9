import { describeProblem, type Problem } from '../errors/index.js';
import type { ScenarioDocument } from '../scenario/index.js';
import { type Change, changeText } from './change.js';
import type { ChangeProblem } from './changeError.js';
import { readPath } from './changePath.js';
import { standsInTheWay } from './standsInTheWay.js';

/** Problems told at once. */
const MOST_PROBLEMS = 100;

/** What a document reads as at some moment. */
export type Reading = ReturnType<ScenarioDocument['read']>;

/** A problem, and the place of the change that it comes from. */
export interface Traced {
  readonly turn: number;
  readonly problem: Problem;
}

/**
 * The problems of the last reading, each with the change since which it has been there.
 *
 * @param readings before all changes, and after each
 * @param loops the ids of the modules in the loop at the same moments
 */
export function traced(
  readings: readonly Reading[],
  changes: readonly Change[],
  loops: readonly (readonly string[])[],
  draft: ScenarioDocument,
): Traced[] {
  const known = readings.map(({ problems }) => new Set(problems.map(withoutHint)));
  // Modules share templates: each problem once.
  const last = new Map(readings.at(-1)?.problems.map((problem) => [withoutHint(problem), problem]));
  return [...last].flatMap(([text, problem]) => {
    const turn = known.findLastIndex((there) => !there.has(text));
    const change = changes[turn];
    return change ? { turn, problem: explained(problem, change, loops[turn] ?? [], draft) } : [];
  });
}

/** A problem as text. What is suggested may change with other changes, while the problem stays the same. */
function withoutHint({ hint: _hint, ...problem }: Problem): string {
  return describeProblem(problem);
}

/** Problems by their changes, and by their places in the file; the first hundred, and a word on the rest. */
export function inOrder(problems: readonly Traced[], changes: readonly Change[]): ChangeProblem[] {
  const sorted = problems
    .toSorted(
      (a, b) =>
        a.turn - b.turn ||
        (a.problem.line ?? 0) - (b.problem.line ?? 0) ||
        (a.problem.column ?? 0) - (b.problem.column ?? 0),
    )
    .flatMap(({ turn, problem }) => {
      const change = changes[turn];
      return change ? { ...problem, change: changeText(change) } : [];
    });
  const more = sorted.length - MOST_PROBLEMS;
  if (more <= 0) return sorted;
  return [
    ...sorted.slice(0, MOST_PROBLEMS),
    { code: 'syntax', path: '', rule: `and ${more} more problems`, change: 'all changes together' },
  ];
}

function explained(
  problem: Problem,
  change: Change,
  loop: readonly string[],
  draft: ScenarioDocument,
): Problem {
  const taken = change.kind === 'without' ? change.module : undefined;
  if (taken === undefined || !problem.rule.startsWith(`${taken} is on the side table`)) return problem;
  return standsInTheWay(problem, taken, loop, (list) => {
    const read = readPath(list);
    return read.ok ? draft.names(read.path) : [];
  });
}
