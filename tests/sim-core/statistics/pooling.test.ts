import { describe, expect, it } from 'vitest';
import {
  gammaPoissonFit,
  gammaPoissonLogLikelihood,
  pooledRates,
} from '../../../packages/sim-core/src/index.js';

/*
 * Ten pumps: failures over thousands of hours (Gaver & O'Muircheartaigh 1987, Technometrics 29, 1-15; George, Makov & Smith
 * 1993, Scandinavian Journal of Statistics 20, 147-156; data confirmed in public copies).
 */
const PUMPS = [
  [5, 94.32],
  [1, 15.72],
  [5, 62.88],
  [14, 125.76],
  [3, 5.24],
  [19, 31.44],
  [1, 1.048],
  [1, 1.048],
  [4, 2.096],
  [22, 10.48],
].map(([events = NaN, exposure = NaN]) => ({ events, exposure }));

describe('copies of one design', () => {
  it('finds the most likely family of the pumps', () => {
    // Type II maximum likelihood: shape 0.823, rate 1.261 (George, Makov & Smith 1993, from memory).
    const family = gammaPoissonFit(PUMPS);
    expect(family?.shape).toBeCloseTo(0.823, 2);
    expect(family?.rate).toBeCloseTo(1.261, 2);
    // And no other near it is likelier.
    const at = (shape: number, rate: number): number => gammaPoissonLogLikelihood(PUMPS, shape, shape / rate);
    const { shape, rate } = family ?? { shape: NaN, rate: NaN };
    for (const other of [
      at(shape * 1.05, rate),
      at(shape, rate * 1.05),
      at(shape * 0.95, rate),
      at(shape, rate * 0.95),
    ])
      expect(other).toBeLessThan(at(shape, rate));
  });

  it('has the Bayes estimates of the pumps as published', () => {
    // Shape exponential with mean 1, rate gamma(0.1, 1), as George, Makov & Smith. Means and standard deviations, and their
    // Monte Carlo errors, of a Gibbs sampler (documentation of a public Bayesian package, 7,500 draws; confirmed).
    const published = [
      [0.0597276, 0.0251118, 0.000357],
      [0.0997635, 0.0773339, 0.001132],
      [0.0889841, 0.0379549, 0.000438],
      [0.116179, 0.030564, 0.000383],
      [0.603654, 0.32236, 0.006122],
      [0.608916, 0.139405, 0.00161],
      [0.894307, 0.691573, 0.03011],
      [0.884304, 0.726039, 0.025229],
      [1.56235, 0.755878, 0.023808],
      [1.98785, 0.427868, 0.01022],
    ] as const;
    const { copies } = pooledRates(PUMPS, 0.95, {
      logPrior: (shape, rate) => -shape - 0.9 * Math.log(rate) - rate,
    });
    for (const [i, [mean, sd, error]] of published.entries()) {
      expect(Math.abs((copies[i]?.mean ?? NaN) - mean), `mean ${i}`).toBeLessThan(3 * error);
      // The error of a standard deviation is about that of the mean.
      expect(Math.abs((copies[i]?.sd ?? NaN) - sd), `sd ${i}`).toBeLessThan(4 * error);
    }
    // 95 % of the sampler's draws of the first and the last pump: 0.0210 to 0.1180 and 1.235 to 2.908.
    expect(copies[0]?.low).toBeCloseTo(0.021, 2);
    expect(copies[0]?.high).toBeCloseTo(0.118, 2);
    expect(Math.abs((copies[9]?.low ?? NaN) - 1.235)).toBeLessThan(0.05);
    expect(Math.abs((copies[9]?.high ?? NaN) - 2.908)).toBeLessThan(0.05);
  });

  it('draws a copy the further the less it was watched, and towards the family', () => {
    const { copies, familyMean } = pooledRates(PUMPS, 0.95);
    for (const { own, mean, drawn } of copies) {
      expect(drawn).toBeGreaterThan(0);
      expect(drawn).toBeLessThan(1);
      expect(Math.abs(mean - familyMean)).toBeLessThan(Math.abs(own - familyMean) + 0.1);
    }
    expect(copies[6]?.drawn).toBeGreaterThan(copies[9]?.drawn ?? NaN);
    expect(copies[9]?.drawn).toBeGreaterThan(copies[3]?.drawn ?? NaN);
  });

  it('gives no family when the counts differ no more than by chance, but does not make copies the same', () => {
    const alike = [4, 6, 5].map((events) => ({ events, exposure: 1 }));
    expect(gammaPoissonFit(alike)).toBeNull();
    const { copies, family } = pooledRates(alike, 0.95);
    expect(family).toBeNull();
    expect(copies[0]?.mean).toBeLessThan(copies[1]?.mean ?? NaN);
    // Wider than if all were known to be one: 15 events over 3, half width about 2 sqrt(15) / 3 = 2.6; narrower than alone.
    const width = (copies[2]?.high ?? NaN) - (copies[2]?.low ?? NaN);
    expect(width).toBeGreaterThan(2 * 2.6);
    // Alone, 5 events: 1.62 to 11.67 (Garwood, from memory).
    expect(width).toBeLessThan(11.67 - 1.62);
  });

  it('works with two copies, and with none that ever stopped', () => {
    const two = pooledRates(
      [
        { events: 2, exposure: 1 },
        { events: 9, exposure: 1 },
      ],
      0.95,
    );
    expect(two.copies[0]?.mean).toBeGreaterThan(2);
    expect(two.copies[1]?.mean).toBeLessThan(9.5);
    const none = pooledRates(
      [
        { events: 0, exposure: 1 },
        { events: 0, exposure: 1 },
      ],
      0.95,
    );
    for (const { mean, high } of none.copies) {
      expect(mean).toBeGreaterThan(0);
      // Together at least as good as one of them alone: -ln 0.025 = 3.69.
      expect(high).toBeLessThan(3.69);
    }
  });

  it('refuses one copy and impossible counts', () => {
    expect(() => pooledRates([{ events: 1, exposure: 1 }], 0.95)).toThrow(/at least|from 2/);
    expect(() =>
      gammaPoissonFit([
        { events: 1, exposure: 1 },
        { events: 1, exposure: 0 },
      ]),
    ).toThrow(/exposure/);
  });
});
