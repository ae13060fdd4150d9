import { requireParameter } from '../../errors/index.js';

/**
 * How odd each of many logged figures is among those of simulated shows, allowing for their number: the chance that in a show
 * of the model some figure or other lies as far out as this one.
 *
 * Each figure is measured by its distance from the mean in standard deviations, both over all N + 1 shows, the logged one
 * included, so that no show is favoured; a figure's chance is (1 + number of simulated shows whose farthest figure lies as
 * far out or farther) / (N + 1). That is the single-step max-T adjustment of Westfall & Young 1993 (Resampling-Based
 * Multiple Testing), with Monte Carlo ranks (Barnard 1963; Davison & Hinkley 1997, section 4.2). All from memory. If the logged show is one of the
 * model, the chance that any figure gets alpha or less is at most alpha.
 *
 * @param logged one figure each; NaN where nothing was logged
 * @param simulated a row of the same figures for each simulated show; NaN where there was nothing to measure
 * @returns one chance each, NaN where nothing was logged
 * @throws ParameterError when there is no simulated show, or a row of another length
 * @example
 * jointRanks([9, 1], [[1, 1], [2, 0], [3, 2], [2, 1]]) // => [0.2, 1]
 */
export function jointRanks(logged: readonly number[], simulated: readonly (readonly number[])[]): number[] {
  const check: typeof requireParameter = requireParameter;
  check(simulated.length > 0, 'jointRanks', 'simulated.length', simulated.length, 'at least 1');
  for (const row of simulated)
    check(
      row.length === logged.length,
      'jointRanks',
      'simulated',
      row.length,
      `rows of ${logged.length} figures`,
    );
  const rows = [logged, ...simulated];
  const far = logged.map((_, j) => (Number.isFinite(logged[j] ?? NaN) ? distances(rows, j) : []));
  const farthest = rows.map((_, r) => far.reduce((most, column) => Math.max(most, column[r] ?? 0), 0));
  return far.map((column) => {
    const own = column[0];
    if (own === undefined) return NaN;
    // A hair of slack: equal figures must tie whatever their rounding.
    const beyond = farthest.slice(1).filter((most) => most >= own * (1 - 1e-9)).length;
    return (1 + beyond) / rows.length;
  });
}

/** Distance of figure j of each row from their mean in standard deviations; 0 where there is no figure, or all are the same. */
function distances(rows: readonly (readonly number[])[], j: number): number[] {
  const values = rows.map((row) => row[j] ?? NaN);
  const there = values.filter((value) => Number.isFinite(value));
  const mean = there.reduce((sum, value) => sum + value, 0) / there.length;
  const sd = Math.sqrt(there.reduce((sum, value) => sum + (value - mean) ** 2, 0) / there.length);
  return values.map((value) => (Number.isFinite(value) && sd > 0 ? Math.abs(value - mean) / sd : 0));
}
