import type { ModuleEstimates, RunResult } from '../experiments/index.js';
import type { LoopSpec } from '../model/spec/index.js';
import { formatShare } from '../units/index.js';
import { briefPhrase, estimatePhrase, KINDS } from './phrase.js';

/** Held up for a larger share of the time than this calls for advice. */
const NOTABLE = 0.05;
/** A module held up for this share of what the most held-up one is only passes the queue on. */
const PASSED_ON = 0.5;

/** A basket that stands below this share of its capacity for 95 % of the time holds nobody up. */
const SELDOM_FULL = 0.9;

/** Which module is held up most, and by which. */
export interface HeldUpFinding {
  readonly most: ModuleEstimates;
  /** The first module further on that is not held up nearly as much; undefined when they hold each other up in a circle. */
  readonly by: ModuleEstimates | undefined;
  /** Modules held up for a notable share of the time, in loop order. */
  readonly notable: readonly ModuleEstimates[];
}

/**
 * Who holds whom up: from the most held-up module on along the loop to the first that is not held up nearly as much.
 *
 * @returns undefined when nothing was held up
 * @example
 * heldUp(exampleResult) // => undefined
 */
export function heldUp({ modules }: RunResult): HeldUpFinding | undefined {
  const share = (module: ModuleEstimates | undefined): number => module?.held_up_share.mean ?? 0;
  const at = modules.reduce((most, module, m) => (share(module) > share(modules[most]) ? m : most), 0);
  const most = modules[at];
  if (most === undefined || share(most) === 0) return undefined;
  const onwards = [...modules.slice(at + 1), ...modules.slice(0, at)];
  return {
    most,
    by: onwards.find((module) => share(module) < PASSED_ON * share(most)),
    notable: modules.filter((module) => share(module) > NOTABLE),
  };
}

/** Advice on modules that are held up; none when it is little, or when the loop locks and that is the matter. */
export function heldUpAdvice(result: RunResult, spec: LoopSpec): string[] {
  const found = heldUp(result);
  if (found === undefined || found.notable.length === 0 || (result.locked.show.mean ?? 0) > NOTABLE)
    return [];
  const { most, by, notable } = found;
  const others = notable.length - 1;
  const more =
    others === 0
      ? ''
      : `, and ${others} more ${others === 1 ? 'is' : 'are'} for more than ${formatShare(NOTABLE)}`;
  const start = `${most.id} is held up ${estimatePhrase(most.held_up_share, KINDS.share)} of the time${more}`;
  if (by === undefined)
    return [`${start}: they hold each other up all the way round. Take balls out, or let one basket spill.`];
  const capacity = spec.modules.find(({ id }) => id === by.id)?.basket.capacity ?? Infinity;
  if ((by.level_p95.mean ?? 0) < SELDOM_FULL * capacity)
    return [
      `${start}, though the basket of ${by.id}, for which they wait, is seldom full: the run-out that leads there holds too few balls for the way they have on it. A quicker run-out, or one that holds more.`,
    ];
  const stopped = (by.stopped_share.mean ?? 0) > 0.01;
  const why = stopped
    ? `, and it stands still ${briefPhrase(by.stopped_share, KINDS.share)} of the time`
    : '';
  return [
    `${start}: ${by.id} takes balls more slowly than they come${why}. Look there first: a quicker cycle, ${stopped ? 'fewer or shorter stops, ' : ''}or a bigger basket or a longer run-out before it.`,
  ];
}
