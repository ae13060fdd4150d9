import { requireParameter } from '../errors/index.js';
import { Moments } from './moments.js';

/** Values to a batch: the 5 of MSER-5. */
const BATCH = 5;
/** So that at least two batches are left whatever is cut. */
const FEWEST = 4 * BATCH;

/** Where the warm-up ends. */
export interface WarmUpCut {
  /** How many values to leave out at the start, a multiple of 5. */
  readonly truncate: number;
  /** True when the best cut was the latest one looked at: the series is too short to tell. */
  readonly atLimit: boolean;
  /** What is made smallest: the squared standard error of the mean of what is left, for independent batches. */
  readonly statistic: number;
}

/**
 * Where the warm-up of one series ends, by MSER-5: cut where the mean of what is left is known best.
 *
 * Batch means z_1..z_b of 5 values each; d minimizes sum over j > d of (z_j - mean of these)^2 / (b - d)^2 for d from 0 to
 * b / 2, ties to the earliest (White 1997, Simulation 69, 323-334; Franklin & White 2008, Proc. Winter Simulation
 * Conference, 541-546; both from memory). Values after the last full batch are left out.
 *
 * @param values in the order of time, equally spaced, at least 20, all finite
 * @throws ParameterError when there are too few values or one is not finite
 * @example
 * const series = [90, 80, 70, 60, 50, ...Array.from({ length: 35 }, (_, i) => i % 3)];
 * mser5(series).truncate // => 5
 */
export function mser5(values: readonly number[] | Float64Array): WarmUpCut {
  const batches = Math.floor(values.length / BATCH);
  requireParameter(values.length >= FEWEST, 'mser5', 'values.length', values.length, `${FEWEST} or more`);
  const latest = Math.floor(batches / 2);
  const left = new Moments();
  let best = { cut: latest, statistic: Infinity };
  // From the end, so that each cut adds one batch to those before it.
  for (let cut = batches - 1; cut >= 0; cut--) {
    let sum = 0;
    for (let i = BATCH * cut; i < BATCH * (cut + 1); i++) {
      const value = values[i] ?? NaN;
      requireParameter(Number.isFinite(value), 'mser5', `values[${i}]`, value, 'a finite number');
      sum += value;
    }
    left.add(sum / BATCH);
    if (cut > latest) continue;
    const statistic = (left.variance * (left.count - 1)) / left.count ** 2;
    if (statistic <= best.statistic) best = { cut, statistic };
  }
  return { truncate: BATCH * best.cut, atLimit: best.cut === latest, statistic: best.statistic };
}
