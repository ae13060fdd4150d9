/**
 * The rising values nearest to these in squares: neighbours that fall are pooled to their mean until none does
 * (pool-adjacent-violators: Ayer, Brunk, Ewing, Reid & Silverman 1955, Annals of Mathematical Statistics 26, 641-647, from memory; for
 * equal weights).
 *
 * @param values in the order in which they should rise, all finite
 * @example
 * isotonicMeans([1, 3, 2, 4]) // => [1, 2.5, 2.5, 4]
 */
export function isotonicMeans(values: readonly number[]): number[] {
  const pools: { mean: number; count: number }[] = [];
  for (const value of values) {
    let pool = { mean: value, count: 1 };
    for (let last = pools.at(-1); last !== undefined && last.mean > pool.mean; last = pools.at(-1)) {
      const count = last.count + pool.count;
      pool = { mean: (last.mean * last.count + pool.mean * pool.count) / count, count };
      pools.pop();
    }
    pools.push(pool);
  }
  return pools.flatMap(({ mean, count }) => Array.from({ length: count }, () => mean));
}
