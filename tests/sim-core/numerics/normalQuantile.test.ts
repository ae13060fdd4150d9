import { describe, expect, it } from 'vitest';
import { normalCdf, normalQuantile } from '../../../packages/sim-core/src/numerics/index.js';

describe('normalQuantile', () => {
  it('gives the check values printed with the algorithm', () => {
    // Wichura (1988), Algorithm AS 241, Applied Statistics 37, 477-484, check values of PPND16 (from memory).
    expect(normalQuantile(0.25)).toBeCloseTo(-0.674489750196082, 15);
    expect(normalQuantile(0.001)).toBeCloseTo(-3.090232306167814, 14);
    expect(normalQuantile(1e-20)).toBeCloseTo(-9.26234008979841, 13);
  });

  it('is the inverse of the distribution function over the whole range', () => {
    for (let e = -300; e <= -1; e += 7) {
      const p = 10 ** e;
      expect(normalCdf(normalQuantile(p)) / p).toBeCloseTo(1, 10);
    }
    for (let p = 0.01; p < 1; p += 0.01) expect(normalCdf(normalQuantile(p))).toBeCloseTo(p, 14);
  });

  it('gives the ends at 0 and 1 and NaN outside', () => {
    expect([normalQuantile(0), normalQuantile(1)]).toEqual([-Infinity, Infinity]);
    for (const p of [-0.1, 1.1, NaN]) expect(normalQuantile(p)).toBeNaN();
  });
});
