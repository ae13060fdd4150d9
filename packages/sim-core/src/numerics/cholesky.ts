/**
 * The lower triangle whose product with its transpose is a symmetric matrix (Cholesky, row by row).
 *
 * @param matrix rows of a positive definite matrix; what rounding has made of one that is nearly not is mended
 * @example
 * cholesky([Float64Array.of(4, 2), Float64Array.of(2, 5)]).map((row) => [...row]) // => [[2, 0], [1, 2]]
 */
export function cholesky(matrix: readonly Float64Array[]): readonly Float64Array[] {
  const root = matrix.map((row) => row.slice());
  for (const [i, row] of root.entries()) {
    for (let j = 0; j <= i; j++) {
      const other = root[j] ?? row;
      let sum = row[j] ?? 0;
      for (let k = 0; k < j; k++) sum -= (row[k] ?? 0) * (other[k] ?? 0);
      row[j] = i === j ? Math.sqrt(Math.max(sum, 1e-12)) : sum / (other[j] ?? 1);
    }
    row.fill(0, i + 1);
  }
  return root;
}

/** Solves L x = values for such a triangle. */
export function solveLower(root: readonly Float64Array[], values: readonly number[]): number[] {
  const x = [...values];
  for (const [i, row] of root.entries()) {
    let sum = x[i] ?? 0;
    for (let k = 0; k < i; k++) sum -= (row[k] ?? 0) * (x[k] ?? 0);
    x[i] = sum / (row[i] ?? 1);
  }
  return x;
}

/** Solves A x = values for the matrix A that the triangle is the root of. */
export function solveByRoot(root: readonly Float64Array[], values: readonly number[]): number[] {
  const x = solveLower(root, values);
  for (let i = root.length - 1; i >= 0; i--) {
    let sum = x[i] ?? 0;
    for (let k = i + 1; k < root.length; k++) sum -= (root[k]?.[i] ?? 0) * (x[k] ?? 0);
    x[i] = sum / (root[i]?.[i] ?? 1);
  }
  return x;
}
