import type { RunResult } from '../experiments/index.js';
import { listing } from './listing.js';
import { atMoment } from './moment.js';
import { estimatePhrase, KINDS } from './phrase.js';

/** That a loop locks, in words: how often, when, who waits for whom; and what to do. */
export interface LockFinding {
  /** Without the full stop. */
  readonly statement: string;
  readonly remedy: string;
}

/**
 * What a run says of a loop that locks: nothing can move any more because every mechanism that could waits for another.
 *
 * @returns undefined when no show locked
 * @example
 * lock(exampleResult) // => undefined
 */
export function lock(result: RunResult): LockFinding | undefined {
  const { show, time_s: time, modules } = result.locked;
  if (show.mean === null || show.mean === 0) return undefined;
  const average = time.replications > 1 ? ' on average' : '';
  const first = time.mean === null ? '' : `, first ${atMoment(result, time.mean)}${average}`;
  const circle = modules.length === result.modules.length;
  const waitedFor = awaited(result, modules);
  const who = circle
    ? `${modules.length > 4 ? `all ${modules.length} modules` : listing(modules)} wait for each other`
    : `${listing(modules)} ${modules.length === 1 ? 'is' : 'are'} held up by ${listing(waitedFor)}, which ${waitedFor.length === 1 ? 'waits' : 'wait'} for more balls`;
  return {
    statement: `The loop locks in ${estimatePhrase(show, KINDS.share)} of the shows${first}: ${who}`,
    remedy: circle
      ? 'Take balls out, or give one of them a basket that spills or an overflow chute.'
      : `Take balls out, or let ${listing(waitedFor)} start at fewer.`,
  };
}

/** The modules that hold others up without being held up themselves. */
function awaited({ modules }: RunResult, heldUp: readonly string[]): string[] {
  const held = new Set(heldUp);
  return modules.flatMap(({ id }, m) => {
    const before = modules.at(m - 1)?.id ?? '';
    return held.has(before) && !held.has(id) ? [id] : [];
  });
}
