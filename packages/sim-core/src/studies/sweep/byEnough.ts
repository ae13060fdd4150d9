import { MEASURES, measureIndex } from '../../experiments/index.js';
import { enough, gainOf } from './enough.js';
import { beyond } from './grid.js';
import type { Looked } from './looked.js';
import type { Judgement } from './sweepResult.js';
import type { Varied } from './varied.js';

/** Values up to which all are judged, so that every row rests on the same shows. */
const ALL_JUDGED = 6;

/** Rounds in which the grid may grow. */
const ROUNDS = 4;

/** The value furthest on the cheap side that is enough. */
export async function byEnough(
  looked: Looked,
  varied: Varied,
  margin: number,
  wanted: 'most' | 'least' | undefined,
): Promise<Judgement> {
  const { on, confidence } = looked.options;
  const sign = MEASURES[measureIndex(on)]?.better === 'more' ? 1 : -1;
  const want = wanted ?? varied.want;
  const towardsCheap = want === 'most' ? 1 : -1;
  await growTowardsBetter();
  const values = looked.exploredValues.toSorted((a, b) => towardsCheap * (a - b));
  const {
    best,
    steps,
    enough: recommended,
  } = await enough(looked, {
    margin,
    order: (first) => values.slice(values.indexOf(first)),
    always: values.length <= ALL_JUDGED ? values : [],
  });
  const beside = recommended ?? best;
  const gain = (value: number): ReturnType<typeof gainOf> =>
    gainOf(looked, beside, value, sign, true, confidence);
  const step = steps.find(({ value }) => value === recommended);
  const cheaper = values[values.indexOf(beside) + 1];
  return {
    recommendation: {
      form: 'enough',
      limit: null,
      margin,
      want,
      recommended,
      at_the_end: recommended !== null && recommended === values.at(-1),
      rival:
        step?.rival === null || step?.rival === undefined || step.gain === null
          ? null
          : { value: step.rival, gain: step.gain },
      next:
        recommended === null || cheaper === undefined || !looked.isJudged(cheaper)
          ? null
          : { value: cheaper, gain: gain(cheaper) },
    },
    verdictOf: (value) => {
      if (steps.some((one) => one.value === value && one.enough)) return 'yes';
      if (!looked.isJudged(value)) return 'not judged';
      if (value !== beside && (gain(value).high ?? 0) < 0) return 'no';
      return recommended !== null && values.indexOf(value) < values.indexOf(recommended)
        ? 'more than it takes'
        : 'undecided';
    },
  };

  /** Goes on beyond the end that costs more while that end is better than the value beside it by more than the margin. */
  async function growTowardsBetter(): Promise<void> {
    const { grid } = varied;
    for (let round = 0; !grid.fixed && round < ROUNDS; round++) {
      const [end, beside] = looked.exploredValues.toSorted((a, b) => towardsCheap * (a - b));
      if (end === undefined || beside === undefined) return;
      if (!((gainOf(looked, beside, end, sign, false, confidence).mean ?? 0) > margin)) return;
      const value = beyond(grid, end, want === 'most' ? -1 : 1, round);
      if (value === null || !looked.can(value)) return;
      await looked.explore([value]);
    }
  }
}
