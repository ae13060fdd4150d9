import { MEASURES, measureIndex } from '../../experiments/index.js';
import type { Estimate } from '../../statistics/index.js';
import type { Looked } from './looked.js';

/** A measure and what does not matter of it. */
export interface Criterion {
  readonly measure: string;
  /** Gains up to this do not matter, in the unit of the measure. */
  readonly margin: number;
}

/** Whether one value is enough: what the rival that may gain most on it gains. */
export interface EnoughStep {
  readonly value: number;
  /** Of the measure that decides, or of the one by which it is not enough. */
  readonly measure: string;
  /** The rival; null when there is none. */
  readonly rival: number | null;
  /** What the rival gains, good news counted positive, paired. */
  readonly gain: Estimate | null;
  /** For sure no rival gains more than the margin, on any measure. */
  readonly enough: boolean;
}

/** Which of several values is enough. */
export interface Enough {
  /** Where judging began. */
  readonly first: number;
  /** In the order in which they were judged, up to the first that is not surely enough. */
  readonly steps: readonly EnoughStep[];
  /** The last that is surely enough; null when not even the first is. */
  readonly enough: number | null;
}

/** How it is judged. */
export interface EnoughOptions {
  /** The measure that decides; then others by which it must be enough too. */
  readonly criteria: readonly Criterion[];
  /**
   * Given the best in the first look by each measure: where to begin, and from there towards what costs less.
   */
  readonly order: (bests: readonly number[]) => readonly number[];
  /** Judged in any case, so that there is a figure to show. */
  readonly always: readonly number[];
}

/**
 * The value furthest along an order that is enough: no other of those explored gains more than a margin on it, for sure, on
 * any of the measures.
 *
 * In the first look values are dropped as rivals on a measure that are surely worse on it than its best of that look (all
 * together at half of alpha, Bonferroni). What is left is judged with fresh shows, along the order, each value at the other
 * half, up to the first that is not surely enough: hypotheses in a fixed sequence need no correction (Maurer, Hothorn &
 * Lehmacher 1995, in: Biometrie in der chemisch-pharmazeutischen Industrie 6, 3-18; from memory). A value is enough when the
 * interval of every rival's gain on it ends below the margin: for a claim about all of them each may be tested at the full
 * level (intersection-union test: Berger 1982, Technometrics 24, 295-300, from memory). So with chance 1 - alpha no other
 * value is better than the one named by more than a margin.
 */
export async function enough(looked: Looked, options: EnoughOptions): Promise<Enough> {
  const { criteria, order, always } = options;
  const { confidence } = looked.options;
  const values = looked.exploredValues;
  const strict = 1 - (1 - confidence) / Math.max(1, (values.length - 1) * criteria.length);
  const contests = criteria.map(({ measure, margin }) => {
    const best = bestOf(looked, measure);
    const rivals = values.filter(
      (value) =>
        value === best ||
        (gainOf(looked, measure, best, value, { judged: false, confidence: strict }).high ?? Infinity) >= 0,
    );
    return { measure, margin, best, rivals };
  });
  const sequence = order(contests.map(({ best }) => best));
  const first = values.filter(
    (value) => contests.some(({ rivals }) => rivals.includes(value)) || always.includes(value),
  );
  await looked.judge(
    first,
    sequence.filter((value) => !first.includes(value)),
  );
  const steps: EnoughStep[] = [];
  let found: number | null = null;
  for (const [i, value] of sequence.entries()) {
    if (!looked.isJudged(value)) await looked.judge([value], sequence.slice(i + 1, i + 2));
    const step = judged(value);
    steps.push(step);
    if (!step.enough) break;
    found = value;
  }
  return { first: sequence[0] ?? NaN, steps, enough: found };

  function judged(value: number): EnoughStep {
    const outcomes = contests.map(({ measure, margin, rivals }) => {
      const gains = rivals
        .filter((rival) => rival !== value)
        .map((rival) => ({
          rival,
          gain: gainOf(looked, measure, value, rival, { judged: true, confidence }),
        }));
      const [most] = gains.toSorted((a, b) => (b.gain.high ?? Infinity) - (a.gain.high ?? Infinity));
      return {
        value,
        measure,
        rival: most?.rival ?? null,
        gain: most?.gain ?? null,
        enough: gains.every(({ gain: { high } }) => high !== null && high <= margin),
      };
    });
    return outcomes.find((outcome) => !outcome.enough) ?? (outcomes[0] as EnoughStep);
  }
}

/** The best value in the first look by a measure; of equals the first. */
function bestOf(looked: Looked, measure: string): number {
  const more = MEASURES[measureIndex(measure)]?.better === 'more';
  const good = (value: number): number => {
    const { mean } = looked.estimate(value, measure, false);
    return mean === null ? -Infinity : more ? mean : -mean;
  };
  return looked.exploredValues.reduce((first, value) => (good(value) > good(first) ? value : first));
}

/** What one value gains over another by a measure, good news counted positive, show by show with the same luck. */
export function gainOf(
  looked: Looked,
  measure: string,
  over: number,
  value: number,
  { judged, confidence }: { readonly judged: boolean; readonly confidence: number },
): Estimate {
  const { difference } = looked.difference(measure, over, value, judged, confidence);
  if (MEASURES[measureIndex(measure)]?.better === 'more') return difference;
  const turned = (one: number | null): number | null => (one === null ? null : 0 - one);
  return {
    ...difference,
    mean: turned(difference.mean),
    low: turned(difference.high),
    high: turned(difference.low),
  };
}
