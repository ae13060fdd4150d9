import { MEASURES, measureIndex } from '../../experiments/index.js';
import type { Estimate } from '../../statistics/index.js';
import type { Looked } from './looked.js';

/** Whether one value is enough: what the rival that gains most on it gains. */
export interface EnoughStep {
  readonly value: number;
  /** The rival; null when there is none. */
  readonly rival: number | null;
  /** What the rival gains, good news counted positive, paired. */
  readonly gain: Estimate | null;
  /** For sure no rival gains more than the margin. */
  readonly enough: boolean;
}

/** Which of several values is enough. */
export interface Enough {
  /** The best in the first look. */
  readonly best: number;
  /** Values that may be the best; all others were surely worse than the best in the first look. */
  readonly rivals: readonly number[];
  /** In the order in which they were judged, up to the first that is not surely enough. */
  readonly steps: readonly EnoughStep[];
  /** The last that is surely enough; null when not even the first is. */
  readonly enough: number | null;
}

/** How it is judged. */
export interface EnoughOptions {
  /** Gains up to this do not matter, in the unit of the measure. */
  readonly margin: number;
  /** From the best in the first look towards those that cost less; begins with that best. */
  readonly order: (best: number) => readonly number[];
  /** Judged in any case, so that there is a figure to show. */
  readonly always: readonly number[];
}

/**
 * The value furthest along an order that is enough: no other of those explored gains more than a margin on it, for sure.
 *
 * In the first look values are dropped as rivals that are surely worse than the best of that look (all together at half of
 * alpha, Bonferroni). What is left is judged with fresh shows, from the best in the order given, each at the other half, up
 * to the first that is not surely enough: hypotheses in a fixed sequence need no correction (Maurer, Hothorn & Lehmacher
 * 1995, in: Biometrie in der chemisch-pharmazeutischen Industrie 6, 3-18; from memory). A value is enough when the
 * interval of every rival's gain on it ends below the margin: for a claim about all of them each may be tested at the full
 * level (intersection-union test: Berger 1982, Technometrics 24, 295-300, from memory). So with chance 1 - alpha no
 * other value is better than the one named by more than the margin.
 */
export async function enough(looked: Looked, options: EnoughOptions): Promise<Enough> {
  const { margin, order, always } = options;
  const values = looked.exploredValues;
  const sign = MEASURES[measureIndex(looked.options.on)]?.better === 'more' ? 1 : -1;
  const { confidence } = looked.options;
  const best = values.reduce((first, value) => (good(looked, value) > good(looked, first) ? value : first));
  const strict = 1 - (1 - confidence) / Math.max(1, values.length - 1);
  const rivals = values.filter(
    (value) => value === best || (gainOf(looked, best, value, sign, false, strict).high ?? Infinity) >= 0,
  );
  const sequence = order(best);
  const first = values.filter((value) => rivals.includes(value) || always.includes(value));
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
  return { best, rivals, steps, enough: found };

  function judged(value: number): EnoughStep {
    const gains = rivals
      .filter((rival) => rival !== value)
      .map((rival) => ({ rival, gain: gainOf(looked, value, rival, sign, true, confidence) }));
    const [most] = gains.toSorted((a, b) => (b.gain.high ?? Infinity) - (a.gain.high ?? Infinity));
    return {
      value,
      rival: most?.rival ?? null,
      gain: most?.gain ?? null,
      enough: gains.every(({ gain: { high } }) => high !== null && high <= margin),
    };
  }
}

/** The mean of the measure in the first look, good news counted positive. */
function good(looked: Looked, value: number): number {
  const { mean } = looked.estimate(value, looked.options.on, false);
  if (mean === null) return -Infinity;
  return MEASURES[measureIndex(looked.options.on)]?.better === 'more' ? mean : -mean;
}

/** What one value gains on another, good news counted positive, show by show with the same luck. */
export function gainOf(
  looked: Looked,
  on: number,
  rival: number,
  sign: 1 | -1,
  judged: boolean,
  confidence: number,
): Estimate {
  const { difference } = looked.difference(on, rival, judged, confidence);
  if (sign === 1) return difference;
  const turned = (value: number | null): number | null => (value === null ? null : 0 - value);
  return {
    ...difference,
    mean: turned(difference.mean),
    low: turned(difference.high),
    high: turned(difference.low),
  };
}
