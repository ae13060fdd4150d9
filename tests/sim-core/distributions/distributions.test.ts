import jstat from 'jstat';
import { describe, expect, it } from 'vitest';
import {
  buildDistribution,
  constant,
  type Distribution,
  type DistributionSpec,
  empirical,
  erlang,
  exponential,
  gamma,
  lognormal,
  normalCutAtZero,
  triangular,
  uniformDistribution,
  weibull,
} from '../../../packages/sim-core/src/distributions/index.js';
import { stream } from '../../../packages/sim-core/src/random/index.js';

/** Mean, variance, distribution function and quantiles as published, to the digits published. */
interface Published {
  readonly name: string;
  readonly source: string;
  readonly distribution: Distribution;
  readonly mean?: number;
  readonly variance?: number;
  readonly cdf?: readonly (readonly [x: number, p: number])[];
  readonly quantiles?: readonly (readonly [p: number, x: number])[];
  /** Decimal places the source prints. */
  readonly places: number;
}

// A chi-square variable with n degrees of freedom is gamma distributed with shape n / 2 and scale 2: mean n, cv sqrt(2 / n).
const chiSquare = (n: number): Distribution => gamma({ mean: n, cv: Math.sqrt(2 / n) });

const PUBLISHED: readonly Published[] = [
  {
    name: 'gamma as chi-square, 1 degree of freedom',
    source: 'NIST/SEMATECH e-Handbook of Statistical Methods, table 1.3.6.7.4 (upper-tail critical values)',
    distribution: chiSquare(1),
    mean: 1,
    variance: 2,
    quantiles: [
      [0.9, 2.706],
      [0.95, 3.841],
      [0.99, 6.635],
      [0.999, 10.828],
    ],
    places: 3,
  },
  {
    name: 'gamma as chi-square, 5 degrees of freedom',
    source: 'NIST/SEMATECH e-Handbook, table 1.3.6.7.4',
    distribution: chiSquare(5),
    mean: 5,
    variance: 10,
    quantiles: [
      [0.05, 1.145],
      [0.1, 1.61],
      [0.9, 9.236],
      [0.95, 11.07],
      [0.99, 15.086],
    ],
    places: 3,
  },
  {
    name: 'Erlang as chi-square, 10 degrees of freedom',
    source:
      'NIST/SEMATECH e-Handbook, table 1.3.6.7.4 (an Erlang variable of 5 stages of mean 2 is chi-square with 10)',
    distribution: erlang({ mean: 10, stages: 5 }),
    mean: 10,
    variance: 20,
    quantiles: [
      [0.01, 2.558],
      [0.05, 3.94],
      [0.1, 4.865],
      [0.9, 15.987],
      [0.95, 18.307],
      [0.99, 23.209],
      [0.999, 29.588],
    ],
    cdf: [[18.307, 0.95]],
    places: 3,
  },
  {
    name: 'Erlang as chi-square, 100 degrees of freedom',
    source: 'NIST/SEMATECH e-Handbook, table 1.3.6.7.4',
    distribution: erlang({ mean: 100, stages: 50 }),
    quantiles: [
      [0.01, 70.065],
      [0.05, 77.929],
      [0.1, 82.358],
      [0.95, 124.342],
    ],
    places: 3,
  },
  {
    name: 'exponential',
    source: 'Abramowitz & Stegun, Handbook of Mathematical Functions (1964), table 4.4 (e^-x), from memory',
    distribution: exponential({ mean: 1 }),
    mean: 1,
    variance: 1,
    cdf: [
      [0.1, 1 - 0.904837418],
      [1, 1 - 0.36787944117],
      [2, 1 - 0.13533528324],
    ],
    quantiles: [[0.5, Math.LN2]],
    places: 9,
  },
  {
    name: 'Weibull',
    source:
      'NIST/SEMATECH e-Handbook 8.1.6.2, worked example: shape 1.5, characteristic life 5000, fraction failed at 1000 (from memory)',
    distribution: weibull({ shape: 1.5, scale: 5000 }),
    cdf: [[1000, 0.0856]],
    places: 4,
  },
  {
    name: 'Weibull of shape 2 (Rayleigh)',
    source:
      'mean sqrt(pi) / 2, variance 1 - pi / 4, median sqrt(ln 2): Johnson, Kotz & Balakrishnan vol. 1 (1994), from memory',
    distribution: weibull({ shape: 2, scale: 1 }),
    mean: 0.8862269254527579,
    variance: 0.21460183660255172,
    quantiles: [[0.5, 0.8325546111576977]],
    places: 12,
  },
  {
    name: 'lognormal',
    source:
      'NIST/SEMATECH e-Handbook 8.1.6.4, worked example: median 20000, sigma 0.5, fraction failed at 5000 (from memory)',
    distribution: lognormal({ mean: 20000 * Math.exp(0.125), cv: Math.sqrt(Math.expm1(0.25)) }),
    cdf: [[5000, 0.00278]],
    quantiles: [[0.5, 20000]],
    places: 5,
  },
  {
    name: 'lognormal with log mean 0 and log deviation 1',
    source:
      'Abramowitz & Stegun (1964), table 26.1: Phi(1) = 0.8413447, Phi(2) = 0.9772499; mean sqrt(e), variance e (e - 1) (from memory)',
    distribution: lognormal({ mean: Math.exp(0.5), cv: Math.sqrt(Math.E - 1) }),
    mean: 1.6487212707,
    variance: 4.6707742705,
    cdf: [
      [Math.E, 0.8413447461],
      [Math.E ** 2, 0.9772498681],
    ],
    places: 9,
  },
  {
    name: 'normal cut at zero, cv 1',
    source:
      'Johnson, Kotz & Balakrishnan vol. 1 (1994), 13.10.1, with Abramowitz & Stegun table 26.1: phi(1) = 0.2419707245, ' +
      'Phi(1) = 0.8413447461, Phi(2) = 0.9772498681 (from memory)',
    distribution: normalCutAtZero({ mean: 1, cv: 1 }),
    mean: 1 + 0.2419707245 / 0.8413447461,
    variance: 1 - 0.2419707245 / 0.8413447461 - (0.2419707245 / 0.8413447461) ** 2,
    cdf: [
      [0, 0],
      [1, (0.5 - 0.1586552539) / 0.8413447461],
      [3, (0.9772498681 - 0.1586552539) / 0.8413447461],
    ],
    places: 8,
  },
  {
    name: 'normal cut at zero, cv 0.1 (the cut takes away 1e-23)',
    source: 'standard normal table: 0.975 quantile 1.959963985 (Abramowitz & Stegun, from memory)',
    distribution: normalCutAtZero({ mean: 10, cv: 0.1 }),
    mean: 10,
    variance: 1,
    quantiles: [
      [0.975, 11.959963985],
      [0.025, 8.040036015],
    ],
    places: 8,
  },
  {
    name: 'triangular',
    source:
      'documentation of @stdlib/stats-base-dists-triangular-variance and -quantile (confirmed by search)',
    distribution: triangular({ min: 4, mode: 5, max: 12 }),
    mean: 7,
    variance: 3.167,
    places: 3,
  },
  {
    name: 'uniform',
    source: 'mean (a + b) / 2, variance (b - a)^2 / 12: NIST/SEMATECH e-Handbook 1.3.6.6.2 (from memory)',
    distribution: uniformDistribution({ min: 2, max: 8 }),
    mean: 5,
    variance: 3,
    cdf: [
      [1, 0],
      [3.5, 0.25],
      [9, 1],
    ],
    quantiles: [
      [0, 2],
      [0.75, 6.5],
      [1, 8],
    ],
    places: 12,
  },
  {
    name: 'empirical, the six faces of a die',
    source:
      'mean 7/2, variance 35/12: Feller, An Introduction to Probability Theory vol. 1, IX (from memory)',
    distribution: empirical({ values: [3, 1, 6, 5, 4, 2] }),
    mean: 3.5,
    variance: 35 / 12,
    cdf: [
      [0.99, 0],
      [1, 1 / 6],
      [3.5, 0.5],
      [6, 1],
    ],
    quantiles: [
      [0, 1],
      [1 / 6, 1],
      [0.5, 3],
      [0.51, 4],
      [1, 6],
    ],
    places: 12,
  },
  {
    name: 'constant',
    source: 'by definition',
    distribution: constant({ value: 3.6 }),
    mean: 3.6,
    variance: 0,
    cdf: [
      [3.59, 0],
      [3.6, 1],
    ],
    quantiles: [[0.3, 3.6]],
    places: 12,
  },
];

describe.each(PUBLISHED)('$name', ({ distribution, mean, variance, cdf = [], quantiles = [], places }) => {
  it('agrees with the published values', () => {
    if (mean !== undefined) expect(distribution.mean).toBeCloseTo(mean, places);
    if (variance !== undefined) expect(distribution.variance).toBeCloseTo(variance, places);
    for (const [x, p] of cdf) expect(distribution.cdf(x)).toBeCloseTo(p, places);
    for (const [p, x] of quantiles) expect(distribution.quantile(p)).toBeCloseTo(x, places);
  });
});

describe('against jstat, an independent library', () => {
  const lognormalSigma = Math.sqrt(Math.log(1.25));
  const pairs: [string, Distribution, (typeof jstat)['gamma'], number[]][] = [
    ['exponential', exponential({ mean: 4 }), jstat.exponential, [0.25]],
    ['gamma', gamma({ mean: 6, cv: 0.4 }), jstat.gamma, [6.25, 0.96]],
    ['gamma, many short times', gamma({ mean: 6, cv: 1.6 }), jstat.gamma, [1 / 2.56, 6 * 2.56]],
    [
      'lognormal',
      lognormal({ mean: 3, cv: 0.5 }),
      jstat.lognormal,
      [Math.log(3) - lognormalSigma ** 2 / 2, lognormalSigma],
    ],
    ['weibull', weibull({ scale: 3, shape: 1.7 }), jstat.weibull, [3, 1.7]],
    ['triangular', triangular({ min: 1, mode: 2, max: 6 }), jstat.triangular, [1, 6, 2]],
    ['uniform', uniformDistribution({ min: 1, max: 6 }), jstat.uniform, [1, 6]],
  ];
  it.each(pairs)('%s: mean, variance, distribution function and quantile', (_, ours, theirs, parameters) => {
    // Its gamma function is good to 8 digits only (Gamma(1 + 1/1.7) differs from the C library's in the ninth).
    expect(ours.mean / theirs.mean(...parameters)).toBeCloseTo(1, 7);
    expect(ours.variance / theirs.variance(...parameters)).toBeCloseTo(1, 6);
    for (const p of [0.001, 0.05, 0.2, 0.5, 0.8, 0.95, 0.999]) {
      const x = theirs.inv(p, ...parameters);
      expect(ours.quantile(p) / x).toBeCloseTo(1, 6);
      expect(ours.cdf(x)).toBeCloseTo(theirs.cdf(x, ...parameters), 7);
    }
  });
});

const EVERY_FAMILY: readonly DistributionSpec[] = [
  { family: 'constant', value: 2 },
  { family: 'uniform', min: 1, max: 3 },
  { family: 'triangular', min: 1, mode: 1.5, max: 4 },
  { family: 'normal', mean: 2, cv: 0.6 },
  { family: 'lognormal', mean: 2, cv: 0.7 },
  { family: 'gamma', mean: 2, cv: 0.7 },
  { family: 'erlang', mean: 2, stages: 3 },
  { family: 'exponential', mean: 2 },
  { family: 'weibull', scale: 2, shape: 1.4 },
  { family: 'weibull', mean: 2, cv: 0.7 },
  { family: 'empirical', values: [1, 2, 2, 5, 9] },
];

describe.each(EVERY_FAMILY)('every family keeps the laws: $family', (spec) => {
  const distribution = buildDistribution(spec);

  it('draws exactly one uniform number for each value, none for a constant', () => {
    let calls = 0;
    const counting = (): number => {
      calls++;
      return 0.37;
    };
    for (let i = 0; i < 10; i++) distribution.sample(counting);
    expect(calls).toBe(spec.family === 'constant' ? 0 : 10);
  });

  it('has a distribution function and a quantile that are each other’s inverse', () => {
    for (let i = 1; i < 200; i++) {
      const p = i / 200;
      const x = distribution.quantile(p);
      expect(x).toBeGreaterThanOrEqual(0);
      expect(distribution.cdf(x)).toBeGreaterThanOrEqual(p - 1e-9);
      expect(distribution.cdf(x * (1 - 1e-7) - 1e-12)).toBeLessThanOrEqual(p + 1e-9);
    }
  });

  it('draws values whose mean and variance are those it states (z-test on 200,000 draws)', () => {
    const uniform = stream({ seed: 1, replication: 0, place: null, purpose: JSON.stringify(spec) });
    const n = 200_000;
    const values = Float64Array.from({ length: n }, () => distribution.sample(uniform));
    const mean = values.reduce((sum, x) => sum + x, 0) / n;
    const squares = values.map((x) => (x - distribution.mean) ** 2);
    const variance = squares.reduce((sum, x) => sum + x, 0) / n;
    const fourth = squares.reduce((sum, x) => sum + (x - variance) ** 2, 0) / n;
    expect(Math.abs(mean - distribution.mean)).toBeLessThanOrEqual(3 * Math.sqrt(variance / n) + 1e-12);
    expect(Math.abs(variance - distribution.variance)).toBeLessThanOrEqual(3 * Math.sqrt(fourth / n) + 1e-12);
  });
});

describe('parameters that cannot be used', () => {
  it.each<[DistributionSpec, string]>([
    [{ family: 'constant', value: -1 }, 'value'],
    [{ family: 'constant', value: Infinity }, 'value'],
    [{ family: 'uniform', min: 3, max: 3 }, 'max'],
    [{ family: 'uniform', min: -1, max: 3 }, 'min'],
    [{ family: 'triangular', min: 1, mode: 5, max: 4 }, 'mode'],
    [{ family: 'normal', mean: 0, cv: 0.1 }, 'mean'],
    [{ family: 'normal', mean: 1, cv: NaN }, 'cv'],
    [{ family: 'lognormal', mean: 1, cv: 0 }, 'cv'],
    [{ family: 'gamma', mean: -1, cv: 1 }, 'mean'],
    [{ family: 'gamma', mean: 1, cv: 11 }, 'cv'],
    [{ family: 'erlang', mean: 1, stages: 1.5 }, 'stages'],
    [{ family: 'exponential', mean: NaN }, 'mean'],
    [{ family: 'weibull', scale: 1, shape: 0 }, 'shape'],
    [{ family: 'weibull', mean: 1, cv: 1000 }, 'cv'],
    [{ family: 'empirical', values: [] }, 'values'],
    [{ family: 'empirical', values: [1, -1] }, 'values'],
    [{ family: 'empirical', values: [1, NaN] }, 'values'],
  ])('%o is refused, naming %s', (spec, parameter) => {
    expect(() => buildDistribution(spec)).toThrow(new RegExp(`: ${parameter} is .* but must be `));
  });
});

describe('weibull by mean and cv', () => {
  it('finds the shape over the whole range', () => {
    for (const cv of [0.002, 0.01, 0.1, 0.5, 1, 2, 10, 100]) {
      const { mean, variance } = weibull({ mean: 7, cv });
      expect(mean).toBeCloseTo(7, 9);
      expect(Math.sqrt(variance) / mean / cv).toBeCloseTo(1, 6);
    }
  });
});
