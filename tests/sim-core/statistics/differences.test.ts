import { describe, expect, it } from 'vitest';
import {
  equivalence,
  meanInterval,
  momentsOf,
  pairedDifference,
  replicationsToDecide,
  stream,
  verdictOfDifference,
  welchDifference,
} from '../../../packages/sim-core/src/index.js';
import { normalQuantile } from '../../../packages/sim-core/src/numerics/index.js';

const STUDIES = 2000;

function normals(purpose: string): () => number {
  const uniform = stream({ seed: 11, replication: 0, place: null, purpose });
  return () => normalQuantile(uniform());
}

const list = (n: number, value: () => number): number[] => Array.from({ length: n }, value);

/** Share of studies in which something holds. */
function share(holds: () => boolean): number {
  let count = 0;
  for (let study = 0; study < STUDIES; study++) if (holds()) count++;
  return count / STUDIES;
}

/** Three binomial standard errors of a share over all studies. */
const luck = (p: number): number => 3 * Math.sqrt((p * (1 - p)) / STUDIES);

describe('paired difference', () => {
  it('covers the true difference as often as it says, and one pair is worth what the shared luck makes it', () => {
    const normal = normals('paired');
    const worth: number[] = [];
    const covered = share(() => {
      const shared = list(8, normal);
      const before = shared.map((x) => 3 * x + normal());
      const after = shared.map((x) => 3 * x + normal() + 0.7);
      const { difference, pairWorth } = pairedDifference(before, after, 0.9);
      worth.push(pairWorth ?? NaN);
      return (difference.low ?? NaN) <= 0.7 && 0.7 <= (difference.high ?? NaN);
    });
    expect(Math.abs(covered - 0.9)).toBeLessThan(luck(0.9));
    // Variances 10 + 10 against 2. The ratio of two estimates is skewed, so its median.
    const median = worth.toSorted((a, b) => a - b)[STUDIES / 2] ?? NaN;
    expect(median).toBeGreaterThan(8);
    expect(median).toBeLessThan(12);
  });

  it('has an interval as wide as independent replications that many times as many would give', () => {
    const normal = normals('worth');
    const shared = list(4000, normal);
    const before = shared.map((x) => 2 * x + normal());
    const after = shared.map((x) => 2 * x + normal());
    const { standardError, pairWorth, correlation } = pairedDifference(before, after, 0.95);
    const apart = welchDifference(momentsOf(before), momentsOf(after), 0.95);
    expect(((apart.standardError ?? NaN) / (standardError ?? NaN)) ** 2).toBeCloseTo(pairWorth ?? NaN, 9);
    // Correlation 4/5 and equal variances: 1 / (1 - 4/5) = 5.
    expect(correlation).toBeCloseTo(0.8, 1);
    expect(Math.abs((pairWorth ?? NaN) - 5)).toBeLessThan(0.5);
  });

  it('leaves out pairs in which one side had nothing to measure', () => {
    const { difference } = pairedDifference([1, NaN, 3, 4], [2, 5, NaN, 7], 0.95);
    expect(difference).toMatchObject({ mean: 2, replications: 2 });
  });

  it('says when there is nothing to say', () => {
    expect(pairedDifference([], [], 0.95)).toMatchObject({
      t: null,
      p: null,
      correlation: null,
      pairWorth: null,
    });
    expect(pairedDifference([1], [3], 0.95).difference).toMatchObject({ mean: 2, low: null, high: null });
    const same = pairedDifference([1, 5, 9], [2, 6, 10], 0.95);
    expect(same).toMatchObject({ t: null, p: null, pairWorth: null, difference: { low: 1, high: 1 } });
    expect(() => pairedDifference([1, 2], [1], 0.95)).toThrow(/after.length is 1 but must be 2/);
    expect(() => pairedDifference([1, 2], [1, 2], 0)).toThrow(/confidence is 0/);
  });
});

describe('Welch’s difference', () => {
  it('covers the true difference with unequal spreads and numbers, where pooled spreads do not', () => {
    const normal = normals('welch');
    const pooledMisses: boolean[] = [];
    const covered = share(() => {
      const few = momentsOf(list(6, () => 5 * normal()));
      const many = momentsOf(list(30, normal));
      const { difference } = welchDifference(few, many, 0.95);
      const pooled = (5 * few.variance + 29 * many.variance) / 34;
      // t(0.975) with 34 degrees is 2.032.
      pooledMisses.push(Math.abs(many.mean - few.mean) > 2.032 * Math.sqrt(pooled * (1 / 6 + 1 / 30)));
      return (difference.low ?? NaN) <= 0 && 0 <= (difference.high ?? NaN);
    });
    expect(Math.abs(covered - 0.95)).toBeLessThan(luck(0.95));
    expect(pooledMisses.filter(Boolean).length / STUDIES).toBeGreaterThan(0.15);
  });

  it('is Student’s interval against a column that does not vary', () => {
    const values = momentsOf([1, 2, 4, 8]);
    const { difference, degrees } = welchDifference(momentsOf([0, 0, 0]), values, 0.9);
    const alone = meanInterval(values, 0.9);
    expect(degrees).toBeCloseTo(3, 12);
    expect(difference.low).toBeCloseTo(alone.low ?? NaN, 9);
    expect(welchDifference(momentsOf([1, 1]), momentsOf([4, 4]), 0.9).difference).toMatchObject({
      low: 3,
      high: 3,
    });
    expect(welchDifference(momentsOf([1]), values, 0.9)).toMatchObject({
      degrees: null,
      difference: { low: null },
    });
  });
});

describe('equivalence and verdict', () => {
  it('calls a difference at the margin equivalent no more often than alpha, and one of zero often', () => {
    const normal = normals('equivalence');
    const called = (truth: number): number =>
      share(() => {
        const zero = list(30, () => 0);
        const difference = pairedDifference(
          zero,
          list(30, () => truth + normal()),
          0.95,
        );
        return equivalence(difference, 0.6, 0.05).equivalent;
      });
    expect(called(0.6)).toBeLessThan(0.05 + luck(0.05));
    expect(called(0)).toBeGreaterThan(0.8);
  });

  it('agrees with both one-sided tests: equivalent just when p is at most alpha', () => {
    const normal = normals('one-sided');
    for (let study = 0; study < 300; study++) {
      const difference = pairedDifference(list(10, normal), list(10, normal), 0.95);
      const { equivalent, p } = equivalence(difference, 1, 0.05);
      expect(equivalent).toBe((p ?? NaN) <= 0.05);
    }
  });

  const interval = (low: number | null, high: number | null) => ({
    mean: 0,
    low,
    high,
    confidence: 0.95,
    replications: 9,
  });

  it('puts each interval in its place', () => {
    expect(verdictOfDifference(interval(1, 3), 2)).toBe('higher');
    expect(verdictOfDifference(interval(-3, -1), 2)).toBe('lower');
    expect(verdictOfDifference(interval(-1, 3), 2)).toBe('undecided');
    expect(verdictOfDifference(interval(0.5, 1.5), 2)).toBe('no difference that matters');
    expect(verdictOfDifference(interval(-2.1, 2.1), 2, interval(-1.9, 1.9))).toBe(
      'no difference that matters',
    );
    expect(verdictOfDifference(interval(1, null), 2)).toBe('higher');
    expect(verdictOfDifference(interval(null, null), 2)).toBe('undecided');
    expect(verdictOfDifference(interval(0, 0), 0)).toBe('no difference that matters');
    expect(() => verdictOfDifference(interval(0, 0), -1)).toThrow(/margin is -1/);
  });
});

describe('replications until a verdict', () => {
  const verdictAfter = (mean: number, variance: number, count: number, margin: number): string => {
    // Values of exactly this mean and variance.
    const step = Math.sqrt((variance * (count - 1)) / (count - (count % 2)));
    const values = list(count, () => 0).map((_, i) => {
      if (count % 2 === 1 && i === 0) return mean;
      return mean + (i % 2 === 0 ? step : -step);
    });
    const paired = pairedDifference(
      list(count, () => 0),
      values,
      0.95,
    );
    return verdictOfDifference(paired.difference, margin, equivalence(paired, margin, 0.05).interval);
  };

  it('is the first number at which there is one, if mean and variance stay', () => {
    for (const [mean, variance, margin, verdict] of [
      [0.5, 4, 0, 'higher'],
      [-0.5, 4, 0.1, 'lower'],
      [0.1, 4, 1, 'no difference that matters'],
      [0, 1, 0.3, 'no difference that matters'],
    ] as const) {
      const more = replicationsToDecide({ count: 6, mean, variance }, margin, 0.95) ?? NaN;
      expect(verdictAfter(mean, variance, 6 + more, margin)).toBe(verdict);
      expect(verdictAfter(mean, variance, 6 + more - 1, margin)).toBe('undecided');
    }
  });

  it('says when it is decided and when no number would do', () => {
    expect(replicationsToDecide({ count: 6, mean: 5, variance: 1 }, 0, 0.95)).toBe(0);
    expect(replicationsToDecide({ count: 6, mean: 0, variance: 1 }, 0, 0.95)).toBeNull();
    expect(replicationsToDecide({ count: 1, mean: 5, variance: NaN }, 0, 0.95)).toBeNull();
    expect(replicationsToDecide({ count: 6, mean: 2, variance: 0 }, 0, 0.95)).toBe(0);
  });
});
