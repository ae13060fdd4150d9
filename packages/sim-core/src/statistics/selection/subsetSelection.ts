import { requireParameter } from '../../errors/index.js';
import { studentTQuantile } from '../../numerics/index.js';
import { type Moments, momentsOf } from '../moments.js';
import { areAlike, isRare } from '../rare.js';
import { requireChance } from '../requireNumbers.js';

/**
 * The systems among which the one with the largest mean is, with chance `confidence` at least: all but those whose mean
 * is too far below that of another. For systems with random numbers of their own.
 *
 * System i stays when mean_i >= mean_j - sqrt(t_i^2 s_i^2 / n_i + t_j^2 s_j^2 / n_j) for every j, with t_i the
 * confidence^(1 / (k - 1)) quantile of Student's t with n_i - 1 degrees of freedom (the idea: Gupta 1965, Technometrics 7,
 * 225-245; unknown and unequal variances: Nelson, Swann, Goldsman & Song 2001, Operations Research 49, 950-963; unequal
 * numbers: Boesel, Nelson & Kim 2003, Operations Research 51, 814-825; all from memory).
 *
 * @param systems values of each, at least 2 systems of at least 2 values
 * @param confidence above 0 and below 1
 * @param certain that values which are all the same cannot vary; when they may, none is dropped for a system with such
 *   values unless others are rare for sure (see `isRare`) @default true
 * @returns numbers of the systems that stay, from 0, in rising order
 * @throws ParameterError when there is too little to screen or the confidence is out of range
 * @example
 * subsetIndependent([[1, 2, 3], [11, 12, 13], [11, 13, 15]].map(momentsOf), 0.95) // => [1, 2]
 */
export function subsetIndependent(systems: readonly Moments[], confidence: number, certain = true): number[] {
  requireSystems('subsetIndependent', systems.length, confidence);
  const share = confidence ** (1 / (systems.length - 1));
  const reach = systems.map(({ count, mean, variance }, i) => {
    requireParameter(count >= 2, 'subsetIndependent', `systems[${i}].count`, count, '2 or more');
    if (!certain && areAlike(variance, Math.abs(mean)) && !isRare(count, confidence)) return Infinity;
    return (studentTQuantile(share, count - 1) ** 2 * variance) / count;
  });
  return kept(
    systems.map(({ mean }) => mean),
    (i, j) => Math.sqrt((reach[i] ?? NaN) + (reach[j] ?? NaN)),
  );
}

/**
 * The systems among which the one with the largest mean is, with chance `confidence` at least, when all were simulated with
 * the same random numbers, replication by replication.
 *
 * System i stays when mean_i >= mean_j - t s_ij / sqrt(n) for every j, with s_ij the standard deviation of the differences
 * and t the 1 - alpha / (k - 1) quantile of Student's t with n - 1 degrees of freedom: the best is dropped only if one of
 * its k - 1 one-sided paired intervals errs (Bonferroni).
 *
 * @param columns values of each system, at least 2 systems of the same number of values, at least 2, all finite
 * @param confidence 1 - alpha, above 0 and below 1
 * @param certain that a difference which is the same in all replications cannot vary; when it may, none is dropped for it
 *   unless others are rare for sure (see `isRare`) @default true
 * @returns numbers of the systems that stay, from 0, in rising order
 * @throws ParameterError when there is too little to screen, a value is not finite or the confidence is out of range
 * @example
 * subsetPaired([[1, 5, 9], [2, 6.1, 10], [2.1, 6, 10]], 0.95) // => [1, 2]
 */
export function subsetPaired(
  columns: readonly (readonly number[])[],
  confidence: number,
  certain = true,
): number[] {
  requireSystems('subsetPaired', columns.length, confidence);
  const n = columns[0]?.length ?? 0;
  for (const [i, column] of columns.entries()) {
    const name = `columns[${i}]`;
    const rule = `${Math.max(2, n)}, as many as in the first column and 2 or more`;
    requireParameter(column.length === n && n >= 2, 'subsetPaired', `${name}.length`, column.length, rule);
    requireParameter(column.every(Number.isFinite), 'subsetPaired', name, column, 'a list of finite numbers');
  }
  const t = studentTQuantile(1 - (1 - confidence) / (columns.length - 1), n - 1);
  const means = columns.map((column) => momentsOf(column).mean);
  const size = Math.max(...means.map(Math.abs));
  return kept(means, (i, j) => {
    const differences = columns[i]?.map((x, r) => x - (columns[j]?.[r] ?? NaN)) ?? [];
    const { variance } = momentsOf(differences);
    if (!certain && areAlike(variance, size) && !isRare(n, confidence)) return Infinity;
    return t * Math.sqrt(variance / n);
  });
}

function requireSystems(where: string, systems: number, confidence: number): void {
  requireParameter(systems >= 2, where, 'systems', systems, '2 or more');
  requireChance(confidence, where, 'confidence');
}

/** The systems that are not below another by more than the width of that pair. */
function kept(means: readonly number[], width: (i: number, j: number) => number): number[] {
  return means.flatMap((mean, i) =>
    means.every((other, j) => i === j || mean >= other - width(i, j)) ? [i] : [],
  );
}
