import { MEASURES, measureIndex } from '../../experiments/index.js';
import { limitSearch } from './limitSearch.js';
import type { Looked } from './looked.js';
import type { Judgement } from './sweepResult.js';
import type { Varied } from './varied.js';

/** The furthest value for which a limit is kept for sure. */
export async function byLimit(
  looked: Looked,
  varied: Varied,
  limit: number,
  wanted: 'most' | 'least' | undefined,
): Promise<Judgement> {
  const atLeast = MEASURES[measureIndex(looked.options.on)]?.better === 'more';
  const want = wanted ?? betterEnd(looked, atLeast) ?? varied.want;
  const { kept, broken, open, furthest, atTheEnd } = await limitSearch(looked, {
    grid: varied.grid,
    limit,
    atLeast,
    side: want === 'most' ? 1 : -1,
  });
  return {
    recommendation: {
      form: 'limit',
      limit,
      margin: null,
      also: [],
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
