import { describe, expect, it } from 'vitest';
import { cholesky, solveByRoot, solveLower } from '../../../packages/sim-core/src/numerics/index.js';

describe('the root of a matrix', () => {
  // By pencil: (2 0 0; 6 1 0; -8 5 3) times its transpose.
  const matrix = [Float64Array.of(4, 12, -16), Float64Array.of(12, 37, -43), Float64Array.of(-16, -43, 98)];

  it('is the triangle whose product with its transpose it is', () => {
    expect(cholesky(matrix).map((row) => [...row])).toEqual([
      [2, 0, 0],
      [6, 1, 0],
      [-8, 5, 3],
    ]);
  });

  it('solves equations', () => {
    const root = cholesky(matrix);
    // L (1, 2, 3) = (2, 8, 11), and A (1, 2, 3) = (-20, -43, 192).
    expect(solveLower(root, [2, 8, 11])).toEqual([1, 2, 3]);
    expect(solveByRoot(root, [-20, -43, 192]).map((x) => Math.round(x * 1e9) / 1e9)).toEqual([1, 2, 3]);
  });
});
