import { MEASURES, measureIndex } from '../../experiments/index.js';
import { type Estimate, isRare } from '../../statistics/index.js';
import { breaks, keeps, limitSearch } from './limitSearch.js';
import type { Looked } from './looked.js';
import { type Kept, keptStandards, type Standards } from './standards.js';
import type { Judgement } from './sweepResult.js';
import type { Varied } from './varied.js';

/**
 * Whether an interval lies on the right side of a limit. Of balls that fall many at a time none seen gives no upper limit:
 * how many fall at once cannot be learnt from shows in which none did. That counts as keeping a limit above 0 when shows
 * with any are rare for sure.
 */
function keepsOrNone(found: Estimate, limit: number, atLeast: boolean): boolean {
  if (atLeast || found.high !== null || found.mean !== 0) return keeps(found, limit, atLeast);
  return limit > 0 && isRare(found.replications, found.confidence);
}

/** The furthest value for which a limit is kept for sure, and what else it must keep. */
export async function byLimit(
  looked: Looked,
  varied: Varied,
  limit: number,
  wanted: 'most' | 'least' | undefined,
  standards: Standards,
  now: Looked,
): Promise<Judgement> {
  const atLeast = MEASURES[measureIndex(looked.options.on)]?.better === 'more';
  // Few minders are wanted whatever the shows say: a loop that stands for want of minders spills nothing.
  const { kind } = varied.thing;
  const isCrew = kind === 'minders' || kind === 'shifts';
  const want = wanted ?? (isCrew ? varied.want : (betterEnd(looked, atLeast) ?? varied.want));
  const estimate = (value: number): Estimate => looked.estimate(value);
  const besides = (value: number, judged = looked.isJudged(value)): Kept =>
    keptStandards(standards, looked, now, value, judged);
  const limitKept = (value: number): boolean => keepsOrNone(estimate(value), limit, atLeast);
  const limitBroken = (value: number): boolean => breaks(estimate(value), limit, atLeast);
  const { kept, broken, open, furthest, atTheEnd } = await limitSearch(looked, {
    grid: varied.grid,
    limit,
    atLeast,
    isKept: (value) => limitKept(value) && besides(value).verdict === 'kept',
    isBroken: (value) => limitBroken(value) || besides(value).verdict === 'broken',
    mayKeep: (value) => besides(value, false).likely,
    side: want === 'most' ? 1 : -1,
  });
  return {
    recommendation: {
      form: 'limit',
      limit,
      margin: null,
      also: standards.asNow === null ? [] : [standards.asNow],
      rules: standards.rules,
      want,
      recommended: furthest,
      at_the_end: atTheEnd,
      rival: null,
      next: null,
    },
    verdictOf: (value) => {
      if (kept.includes(value)) return 'yes';
      if (broken.includes(value)) return 'no';
      return open.includes(value) ? 'undecided' : 'not judged';
    },
    decidedBy: (value) => {
      if (broken.includes(value)) return limitBroken(value) ? looked.options.on : besides(value).measure;
      return open.includes(value) ? (limitKept(value) ? besides(value).measure : looked.options.on) : null;
    },
  };
}

/** Where the low end is clearly better much is wanted, as far as the limit is kept; where the high end is, little. */
function betterEnd(looked: Looked, moreIsBetter: boolean): 'most' | 'least' | undefined {
  const { on, confidence } = looked.options;
  const values = looked.exploredValues;
  const [low = 0] = values;
  const high = values.at(-1) ?? 0;
  const { difference } = looked.difference(on, low, high, false, confidence);
  if ((difference.low ?? 0) > 0) return moreIsBetter ? 'least' : 'most';
  if ((difference.high ?? 0) < 0) return moreIsBetter ? 'most' : 'least';
  return undefined;
}
