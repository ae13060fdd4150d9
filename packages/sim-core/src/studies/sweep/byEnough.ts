import { type Criterion, enough, gainOf } from './enough.js';
import { between, beyond } from './grid.js';
import type { Looked } from './looked.js';
import type { Judgement } from './sweepResult.js';
import type { Varied } from './varied.js';

/** Values up to which all are judged, so that every row rests on the same shows. */
const ALL_JUDGED = 6;

/** Parts into which the gap is cut in which the decision lies. */
const REFINED = 3;

/** Rounds in which the grid may grow. */
const ROUNDS = 4;

/** The value furthest on the cheap side that is enough. */
export async function byEnough(
  looked: Looked,
  varied: Varied,
  criteria: readonly [Criterion, ...Criterion[]],
  wanted: 'most' | 'least' | undefined,
): Promise<Judgement> {
  const { confidence } = looked.options;
  const [{ measure: on, margin }, ...also] = criteria;
  const want = wanted ?? varied.want;
  const towardsCheap = want === 'most' ? 1 : -1;
  const costlyFirst = (): number[] => looked.exploredValues.toSorted((a, b) => towardsCheap * (a - b));
  await growTowardsBetter();
  const begun = costlyFirst();
  await refineLastGap();
  const values = costlyFirst();
  const {
    first,
    steps,
    enough: recommended,
  } = await enough(looked, {
    criteria,
    // From the most costly of the bests on: cheaper ones may be worse by another measure.
    order: (bests) => values.slice(Math.min(...bests.map((best) => values.indexOf(best)))),
    always: begun.length <= ALL_JUDGED ? begun : [],
  });
  const beside = recommended ?? first;
  const gain = (value: number, measure: string): ReturnType<typeof gainOf> =>
    gainOf(looked, measure, beside, value, { judged: true, confidence });
  const step = steps.find(({ value }) => value === recommended);
  const failed = steps.find((one) => !one.enough);
  return {
    recommendation: {
      form: 'enough',
      limit: null,
      margin,
      also,
      rules: [],
      want,
      recommended,
      at_the_end: recommended !== null && recommended === values.at(-1),
      rival:
        step === undefined || step.rival === null || step.gain === null
          ? null
          : { value: step.rival, measure: on, gain: step.gain },
      next:
        recommended === null || failed === undefined
          ? null
          : { value: failed.value, measure: failed.measure, gain: gain(failed.value, failed.measure) },
    },
    verdictOf: (value) => {
      if (steps.some((one) => one.value === value && one.enough)) return 'yes';
      if (!looked.isJudged(value)) return 'not judged';
      const isWorse = ({ measure, margin: least }: Criterion): boolean =>
        (gain(value, measure).high ?? 0) < -least;
      if (value !== beside && criteria.some((one) => isWorse(one))) return 'no';
      return recommended !== null && values.indexOf(value) < values.indexOf(recommended)
        ? 'more than it takes'
        : 'undecided';
    },
    decidedBy: () => null,
  };

  /** Looks between the last value that by a first look is enough and the next, which is not. */
  async function refineLastGap(): Promise<void> {
    const values = costlyFirst();
    const isEnough = (value: number): boolean =>
      criteria.every(({ measure, margin: least }) =>
        values.every(
          (rival) =>
            (gainOf(looked, measure, value, rival, { judged: false, confidence }).mean ?? 0) <= least,
        ),
      );
    const last = values.findLast((value) => isEnough(value));
    const after = last === undefined ? undefined : values[values.indexOf(last) + 1];
    if (varied.grid.fixed || last === undefined || after === undefined) return;
    const inner = between(last, after, varied.grid.whole, REFINED).filter(
      (value) => !values.includes(value) && looked.can(value),
    );
    if (inner.length > 0) await looked.explore(inner);
  }

  /** Goes on beyond the end that costs more while that end is better than the value beside it by more than the margin. */
  async function growTowardsBetter(): Promise<void> {
    const { grid } = varied;
    for (let round = 0; !grid.fixed && round < ROUNDS; round++) {
      const [end, beside] = costlyFirst();
      if (end === undefined || beside === undefined) return;
      const better = criteria.some(
        ({ measure, margin: least }) =>
          (gainOf(looked, measure, beside, end, { judged: false, confidence }).mean ?? 0) > least,
      );
      const value = better ? beyond(grid, end, want === 'most' ? -1 : 1, round) : null;
      if (value === null || !looked.can(value)) return;
      await looked.explore([value]);
    }
  }
}
