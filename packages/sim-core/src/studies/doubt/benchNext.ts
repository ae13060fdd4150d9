import type { ModuleCounted, ModuleSpec } from '../../model/spec/index.js';
import { studentTQuantile } from '../../numerics/index.js';
import { momentsOf } from '../../statistics/index.js';
import { countedSeconds } from './countedModules.js';

/** What counting one module for another hour would do. */
export interface BenchGain {
  readonly module: string;
  /** Time it was counted for, the longest of its counts; cycles and balls count by its mean cycle. */
  readonly counted_s: number;
  /** Of the variance of the figure over draws that counted modules explain, the share of this one; 0 to 1. */
  readonly share: number;
  /** The share of that variance that another hour would take off. */
  readonly takes_off: number;
}

/** Which module to count for another hour. */
export interface BenchNext {
  /** Largest gain first. */
  readonly gains: readonly BenchGain[];
  /** Null when no module stands out from the luck of the draws. */
  readonly best: string | null;
}

/** A module that was counted, with what was drawn of it. */
export interface DrawnModule {
  readonly module: ModuleSpec;
  readonly counted: ModuleCounted;
  /** What was drawn, by parameter, of each draw. */
  readonly draws: readonly ReadonlyMap<string, number>[];
}

const HOUR = 3600;
/** Chance to name a module although none matters. */
const FALSE_ALARM = 0.05;

/**
 * Which module to count for another hour, to know the figure best.
 *
 * The parameters were drawn independently, so the variance of the figure over draws is the sum of what each explains: the
 * squared correlation with the means of the draws, less what chance alone would give, 1 - (1 - r^2)(K - 1) / (K - 2) (Ezekiel
 * 1930, from memory). What is not known of a parameter shrinks in variance as its count grows, so an hour on top of T takes
 * off the share 1 h / (T + 1 h). A module stands out when one of its parameters is correlated for sure: |t| of r beyond the
 * quantile at 5 % over all parameters together (Bonferroni).
 *
 * @param means the figure, one mean for each draw
 * @param drawn the modules that were counted, each with the same draws
 */
export function benchNext(means: readonly number[], drawn: readonly DrawnModule[]): BenchNext {
  const draws = means.length;
  const columns = drawn.map((one) => columnsOf(one));
  const parameters = columns.reduce((sum, { length }) => sum + length, 0);
  const seen = columns.map((own) => {
    const squares = own.map((column) => squaredCorrelation(column, means));
    const explained = squares.reduce(
      (sum, square) => sum + 1 - ((1 - square) * (draws - 1)) / (draws - 2),
      0,
    );
    return { explained: Math.max(0, explained), strongest: Math.max(0, ...squares) };
  });
  const all = seen.reduce((sum, { explained }) => sum + explained, 0);
  const far = studentTQuantile(1 - FALSE_ALARM / (2 * Math.max(1, parameters)), draws - 2);
  const gains = drawn.map(({ module, counted }, i) => {
    const time = countedSeconds(module, counted);
    const { explained = 0, strongest = 0 } = seen[i] ?? {};
    const share = all > 0 ? explained / all : 0;
    const t = Math.sqrt((strongest * (draws - 2)) / (1 - strongest || Number.MIN_VALUE));
    const gain = { module: module.id, counted_s: time, share, takes_off: (share * HOUR) / (time + HOUR) };
    return { gain, sure: t > far };
  });
  const sorted = gains.toSorted((a, b) => b.gain.takes_off - a.gain.takes_off);
  const [first] = sorted;
  return {
    gains: sorted.map(({ gain }) => gain),
    best: first?.sure === true ? first.gain.module : null,
  };
}

function columnsOf({ draws }: DrawnModule): number[][] {
  const names = [...(draws[0]?.keys() ?? [])];
  return names.map((name) => draws.map((draw) => draw.get(name) ?? NaN));
}

/** 0 when one of them does not vary. */
function squaredCorrelation(a: readonly number[], b: readonly number[]): number {
  const [ma, mb] = [momentsOf(a), momentsOf(b)];
  const both = ma.variance * mb.variance;
  if (!(both > 0)) return 0;
  const covariance =
    a.reduce((sum, value, i) => sum + (value - ma.mean) * ((b[i] ?? NaN) - mb.mean), 0) / (a.length - 1);
  return Math.min(1, covariance ** 2 / both);
}
