import { describe, expect, it } from 'vitest';
import {
  clopperPearson,
  type Estimate,
  meanInterval,
  meanSequence,
  meanSequenceAsymptotic,
  meanSequenceKnownSd,
  mixtureRadius,
  Moments,
  momentsOf,
  proportionSequence,
  stream,
  verdictOfDifference,
} from '../../../packages/sim-core/src/index.js';
import { normalQuantile } from '../../../packages/sim-core/src/numerics/index.js';

const STUDIES = 2000;
/** Values after which a study is given up. */
const LONGEST = 1000;
const ALPHA = 0.05;

const uniformFor = (purpose: string) => stream({ seed: 12, replication: 0, place: null, purpose });

/** Share of studies that, looking after every value from one on, ever leave out the true mean of 0. */
function everWrong(
  purpose: string,
  value: (u: number) => number,
  look: (moments: Moments) => Estimate,
  first = 10,
): number {
  const uniform = uniformFor(purpose);
  let wrong = 0;
  for (let study = 0; study < STUDIES; study++) {
    const moments = new Moments();
    for (let n = 1; n <= LONGEST; n++) {
      moments.add(value(uniform()));
      if (n >= first && verdictOfDifference(look(moments), 0) !== 'undecided') {
        wrong++;
        break;
      }
    }
  }
  return wrong / STUDIES;
}

describe('radius of the normal mixture', () => {
  it('makes the mixture reach 1 / alpha just at its edge, as integrated numerically', () => {
    for (const [n, planned, alpha] of [
      [1, 10, 0.05],
      [40, 100, 0.05],
      [500, 100, 0.01],
    ] as const) {
      // x - ln(1 + x) = 2 ln(1/alpha), solved by walking; the variance of the mixture follows from it.
      let x = 0;
      while (x - Math.log1p(x) < -2 * Math.log(alpha)) x += 1e-5;
      const rho = Math.sqrt(x / planned);
      const sum = n * mixtureRadius(n, planned, alpha);
      let integral = 0;
      const step = rho / 400;
      for (let b = -12 * rho; b <= 12 * rho; b += step)
        integral +=
          (step * Math.exp(b * sum - (n * b * b) / 2 - (b * b) / (2 * rho * rho))) /
          (rho * Math.sqrt(2 * Math.PI));
      expect(integral * alpha).toBeCloseTo(1, 3);
    }
  });

  it('is smallest at the planned number among all plans', () => {
    for (const alpha of [0.2, 0.05, 0.001]) {
      const best = mixtureRadius(100, 100, alpha);
      for (const planned of [20, 60, 90, 99, 101, 110, 150, 400])
        expect(mixtureRadius(100, planned, alpha)).toBeGreaterThan(best);
    }
  });

  it('refuses what is no number of values', () => {
    expect(() => mixtureRadius(0, 10, 0.05)).toThrow(/n is 0/);
    expect(() => mixtureRadius(5, 0, 0.05)).toThrow(/planned is 0/);
    expect(() => mixtureRadius(5, 10, 1)).toThrow(/alpha is 1/);
  });
});

describe('studies of no difference at all that may stop as soon as they see one', () => {
  it('err at most at the stated rate with the known deviation', () => {
    const rate = everWrong('known', normalQuantile, (m) => meanSequenceKnownSd(m, 1, 100, 1 - ALPHA));
    expect(rate).toBeLessThanOrEqual(ALPHA);
    expect(rate).toBeGreaterThan(0.005);
  });

  it('err at most at the stated rate with the deviation estimated, from the second value on', () => {
    const rate = everWrong('estimated', normalQuantile, (m) => meanSequence(m, 100, 1 - ALPHA, 2), 2);
    expect(rate).toBeLessThanOrEqual(ALPHA);
    expect(rate).toBeGreaterThan(0.005);
  });

  it('err at most at the stated rate with the asymptotic sequence, but not if it began at the second value', () => {
    const asymptotic = (first: number) => (m: Moments) => meanSequenceAsymptotic(m, 100, 1 - ALPHA, first);
    expect(everWrong('asymptotic', normalQuantile, asymptotic(30), 30)).toBeLessThanOrEqual(ALPHA);
    expect(everWrong('asymptotic', normalQuantile, asymptotic(2), 2)).toBeGreaterThan(2 * ALPHA);
  });

  it('err at most at the stated rate with skewed values once these are many', () => {
    const skewed = (u: number): number => -Math.log(u) - 1;
    const rate = everWrong('skewed', skewed, (m) => meanSequence(m, 100, 1 - ALPHA, 100), 100);
    expect(rate).toBeLessThanOrEqual(ALPHA);
  });

  it('err far more often with the interval for a fixed number, looked at every time', () => {
    const rate = everWrong('peeking', normalQuantile, (m) => meanInterval(m, 1 - ALPHA));
    expect(rate).toBeGreaterThan(5 * ALPHA);
  });
});

describe('confidence sequence of a mean', () => {
  const alternating = (n: number): Moments =>
    momentsOf(Array.from({ length: n }, (_, i) => (i % 2 === 0 ? -1 : 1)));

  it('has its limits where the ratio of the mixture to the truth reaches 1 / alpha, integrated over mean and spread', () => {
    // Values 0, 1, 3, 4: likelihood averaged over the spread with weight 1 / spread, and for the mixture over the mean in
    // spreads as well, normal with variance x / planned.
    const values = [0, 1, 3, 4];
    const [planned, alpha] = [4, 0.2];
    let x = 0;
    while (x - Math.log1p(x) < -2 * Math.log(alpha)) x += 1e-5;
    const rho = Math.sqrt(x / planned);
    const averaged = (truth: number, effect: number): number => {
      let sum = 0;
      for (let log = -4; log <= 9; log += 0.02) {
        const spread = Math.exp(log);
        const squares = values.reduce((all, v) => all + ((v - truth) / spread - effect) ** 2, 0);
        sum += Math.exp(-squares / 2 - values.length * log);
      }
      return sum;
    };
    const { high } = meanSequence(momentsOf(values), planned, 1 - alpha, 2);
    const truth = high ?? NaN;
    let mixed = 0;
    const step = rho / 40;
    for (let effect = -8 * rho; effect <= 8 * rho; effect += step)
      mixed +=
        (averaged(truth, effect) * step * Math.exp(-((effect / rho) ** 2) / 2)) /
        (rho * Math.sqrt(2 * Math.PI));
    expect((mixed / averaged(truth, 0)) * alpha).toBeCloseTo(1, 3);
  });

  it('comes to the same as the asymptotic sequence with many values, and is wider with few', () => {
    const high = (sequence: typeof meanSequence, n: number): number =>
      sequence(alternating(n), 100, 0.95, 2).high ?? Infinity;
    expect(high(meanSequence, 4)).toBeGreaterThan(1.5 * high(meanSequenceAsymptotic, 4));
    expect(high(meanSequence, 20_000) / high(meanSequenceAsymptotic, 20_000)).toBeCloseTo(1, 3);
  });

  it('has no interval before there are values enough, nor while all are the same', () => {
    for (const sequence of [meanSequence, meanSequenceAsymptotic]) {
      expect(sequence(alternating(28), 100, 0.95)).toMatchObject({ low: null, high: null });
      expect(sequence(alternating(30), 100, 0.95).low).toBeLessThan(0);
      expect(sequence(momentsOf(Array.from({ length: 50 }, () => 0)), 100, 0.95).high).toBeNull();
      expect(sequence(momentsOf([]), 100, 0.95)).toMatchObject({ mean: null, low: null });
      expect(() => sequence(alternating(4), 100, 0.95, 1)).toThrow(/first is 1/);
      expect(() => sequence(alternating(4), 0, 0.95)).toThrow(/planned is 0/);
    }
    // Two values far apart from any plan: any mean is possible.
    expect(meanSequence(momentsOf([1, 2]), 1000, 0.95, 2).high).toBeNull();
    expect(meanSequenceKnownSd(momentsOf([]), 1, 100, 0.95)).toMatchObject({ mean: null, low: null });
    expect(() => meanSequenceKnownSd(momentsOf([1]), 0, 100, 0.95)).toThrow(/sd is 0/);
  });
});

describe('confidence sequence of a proportion', () => {
  it('has the limits that follow in closed form when none or all happened', () => {
    for (const n of [1, 10, 400]) {
      // (n + 1) (1 - p)^n = alpha
      const limit = 1 - (ALPHA / (n + 1)) ** (1 / n);
      expect(proportionSequence(0, n, 0.95).high).toBeCloseTo(limit, 10);
      expect(proportionSequence(n, n, 0.95).low).toBeCloseTo(1 - limit, 10);
      expect(proportionSequence(0, n, 0.95).low).toBe(0);
      expect(proportionSequence(n, n, 0.95).high).toBe(1);
    }
    expect(proportionSequence(0, 0, 0.95)).toMatchObject({ mean: null, low: null, high: null });
    expect(() => proportionSequence(3, 2, 0.95)).toThrow(/successes is 3/);
  });

  it('has limits at which the mixture reaches 1 / alpha, as multiplied out', () => {
    const { low, high } = proportionSequence(3, 8, 0.9);
    for (const p of [low ?? NaN, high ?? NaN]) expect(9 * 56 * p ** 3 * (1 - p) ** 5).toBeCloseTo(0.1, 9);
  });

  it('errs at most at the stated rate, looked at thirty times, where exact binomial limits err far more', () => {
    for (const [truth, teeth] of [
      [0.3, true],
      [0.02, false],
    ] as const) {
      const uniform = uniformFor(`share ${truth}`);
      const wrong = { sequence: 0, binomial: 0 };
      for (let study = 0; study < STUDIES; study++) {
        let successes = 0;
        let [sequence, binomial] = [false, false];
        for (let n = 1; n <= 300; n++) {
          if (uniform() < truth) successes++;
          // A look at every tenth: 600,000 root searches would take too long.
          if (n % 10 !== 0) continue;
          const now = proportionSequence(successes, n, 1 - ALPHA);
          if ((now.low ?? NaN) > truth || (now.high ?? NaN) < truth) sequence = true;
          const fixed = clopperPearson(successes, n, 1 - ALPHA);
          if (fixed.low > truth || fixed.high < truth) binomial = true;
        }
        if (sequence) wrong.sequence++;
        if (binomial) wrong.binomial++;
      }
      expect(wrong.sequence / STUDIES).toBeLessThanOrEqual(ALPHA);
      if (teeth) expect(wrong.binomial / STUDIES).toBeGreaterThan(2 * ALPHA);
    }
  });
});
