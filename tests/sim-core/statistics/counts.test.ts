import jstat from 'jstat';
import { describe, expect, it } from 'vitest';
import {
  cvInterval,
  jeffreysProportion,
  lognormalMean,
  poissonRate,
  rateRatio,
} from '../../../packages/sim-core/src/index.js';

describe('chances from counts', () => {
  it('has the limits of Jeffreys as published', () => {
    // Brown, Cai & DasGupta 2001, table 5, n = 10, x = 0 to 5, from memory.
    const published = [
      [0, 0.217],
      [0.011, 0.381],
      [0.044, 0.503],
      [0.093, 0.606],
      [0.153, 0.696],
      [0.224, 0.776],
    ] as const;
    for (const [x, [low, high]] of published.entries()) {
      const limits = jeffreysProportion(x, 10, 0.95);
      expect(limits.low).toBeCloseTo(low, 3);
      expect(limits.high).toBeCloseTo(high, 3);
    }
    expect(jeffreysProportion(10, 10, 0.95).high).toBe(1);
  });

  it('has the beta quantiles of another library', () => {
    const { low, high } = jeffreysProportion(3, 200, 0.9);
    expect(low).toBeCloseTo(jstat.beta.inv(0.05, 3.5, 197.5), 8);
    expect(high).toBeCloseTo(jstat.beta.inv(0.95, 3.5, 197.5), 8);
  });
});

describe('rates from counts', () => {
  it('has the exact limits as published', () => {
    // Welsh nickel workers, the example of R's poisson.test: 137 in 24.19893, 4.753125 to 6.692709 (from memory).
    const { exact } = poissonRate(137, 24.19893, 0.95);
    expect(exact.low).toBeCloseTo(4.753125, 5);
    expect(exact.high).toBeCloseTo(6.692709, 5);
    // Garwood's table: 5 events, 1.62 to 11.67 (from memory).
    expect(poissonRate(5, 1, 0.95).exact.low).toBeCloseTo(1.62, 2);
    expect(poissonRate(5, 1, 0.95).exact.high).toBeCloseTo(11.67, 2);
  });

  it('has the gamma quantiles of another library for Jeffreys', () => {
    const { jeffreys } = poissonRate(4, 2, 0.95);
    expect(jeffreys.low).toBeCloseTo(jstat.gamma.inv(0.025, 4.5, 1) / 2, 7);
    expect(jeffreys.high).toBeCloseTo(jstat.gamma.inv(0.975, 4.5, 1) / 2, 7);
  });

  it('gives an upper limit when nothing was seen, the rule of three beside it', () => {
    const { rate, exact, ruleOfThree, jeffreys } = poissonRate(0, 50, 0.95);
    expect(rate).toBe(0);
    // -ln 0.05 = 2.9957.
    expect(exact).toEqual({ low: 0, high: expect.closeTo(2.9957 / 50, 5) });
    expect(ruleOfThree).toBe(0.06);
    expect(jeffreys.low).toBe(0);
    expect(poissonRate(1, 50, 0.95).ruleOfThree).toBeNull();
  });

  it('compares two rates as published', () => {
    // R's poisson.test(c(11, 21), c(800, 3011)): 1.971488, 0.8584264 to 4.2772659 (confirmed in public copies of its output).
    const { ratio, exact, jeffreys } = rateRatio(
      { events: 11, exposure: 800 },
      { events: 21, exposure: 3011 },
      0.95,
    );
    expect(ratio).toBeCloseTo(1.971488, 6);
    expect(exact.low).toBeCloseTo(0.8584264, 6);
    expect(exact.high).toBeCloseTo(4.2772659, 6);
    expect(jeffreys.low > exact.low && jeffreys.high < exact.high).toBe(true);
  });

  it('says what can be said of a ratio when one side saw nothing', () => {
    const none = { events: 0, exposure: 10 };
    const some = { events: 4, exposure: 10 };
    expect(rateRatio(some, none, 0.95)).toMatchObject({ ratio: null, exact: { high: Infinity } });
    expect(rateRatio(none, some, 0.95)).toMatchObject({ ratio: 0, exact: { low: 0 } });
    expect(rateRatio(none, none, 0.95).exact).toEqual({ low: 0, high: Infinity });
  });

  it('refuses what no count can be', () => {
    expect(() => poissonRate(1.5, 2, 0.95)).toThrow(/events/);
    expect(() => poissonRate(1, 0, 0.95)).toThrow(/exposure/);
    expect(() => jeffreysProportion(3, 2, 0.95)).toThrow(/successes/);
    expect(() => rateRatio({ events: 1, exposure: -1 }, { events: 1, exposure: 1 }, 0.95)).toThrow(
      /here.exposure/,
    );
  });
});

describe('means and spreads of times', () => {
  it('has the limits of a lognormal mean by hand', () => {
    // Logarithms 0, 1, 2: mean 1, variance 1; t(2) = 4.302653; sqrt(1/3 + 1/4) = 0.7637626; exp(1.5 -+ 3.286205).
    const { low, high } = lognormalMean([1, Math.E, Math.E ** 2], 0.95);
    expect(low).toBeCloseTo(Math.exp(1.5 - 3.286205), 5);
    expect(high / Math.exp(1.5 + 3.286205)).toBeCloseTo(1, 5);
  });

  it('has the chi-square limits of the cv of lognormal times by hand', () => {
    // Logarithms 0, 1, 2: variance 1 on 2 degrees; chi-square 0.05063562 and 7.377759 at 2.5 and 97.5 %.
    const { low, high } = cvInterval([1, Math.E, Math.E ** 2], 'lognormal', 0.95);
    expect(low).toBeCloseTo(Math.sqrt(Math.expm1(2 / 7.377759)), 6);
    expect(high / Math.sqrt(Math.expm1(2 / 0.05063562))).toBeCloseTo(1, 4);
  });

  it('has the limits of Vangel for normal times by hand', () => {
    // n = 3, mean 10, sd 1: K = cv = 0.1; low = K / sqrt(((7.377759 + 2) / 3 - 1) K^2 + 7.377759 / 2).
    const { low } = cvInterval([9, 10, 11], 'normal', 0.95);
    expect(low).toBeCloseTo(0.1 / Math.sqrt((9.377759 / 3 - 1) * 0.01 + 7.377759 / 2), 7);
  });
});
