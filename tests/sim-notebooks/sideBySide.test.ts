import type { Estimate } from '@lapwright/sim-core';
import { load, run, SideBySide, sideBySide } from '@lapwright/sim-notebooks';
import { describe, expect, it } from 'vitest';

const like = (mean: number, low = mean, high = mean): Estimate => ({
  mean,
  low,
  high,
  confidence: 0.95,
  replications: 3,
});
const row = (label: string, values: readonly number[]) => ({
  label,
  values,
  estimate: like(values.reduce((sum, value) => sum + value, 0) / values.length),
});

describe('loops side by side', () => {
  // Differences 2, 3 and 1: mean 2, standard deviation 1, standard error 1/sqrt(3).
  const two = [row('a', [1, 2, 3]), row('b', [3, 5, 4])];

  it('compares two by Student’s t on the differences of the shows', () => {
    // Student's t with 2 degrees of freedom, 0.975: 4.3027 (any table).
    const { mean, low, high } = new SideBySide(two, { on: 'throughput_bps', seed: 1 }).ahead('b', 'a');
    expect(mean).toBe(2);
    expect(low).toBeCloseTo(2 - 4.3027 / Math.sqrt(3), 4);
    expect(high).toBeCloseTo(2 + 4.3027 / Math.sqrt(3), 4);
  });

  it('widens the intervals of three so that those of all three pairs hold together', () => {
    // Bonferroni's t with 2 degrees of freedom for 3 intervals at 5 %: 7.649 (Dunn 1961, JASA 56, 52-64, from memory).
    const three = new SideBySide([...two, row('c', [0, 0, 1])], { on: 'throughput_bps', seed: 1 });
    expect(three.ahead('b', 'a').low).toBeCloseTo(2 - 7.649 / Math.sqrt(3), 3);
  });

  it('says that less is better where it is', () => {
    const spilled = new SideBySide(two, { on: 'spills_per_hour', seed: 1 });
    expect([spilled.best, spilled.ahead('a', 'b').mean]).toEqual(['a', 2]);
    expect(new SideBySide(two, { on: 'throughput_bps', seed: 1 }).best).toBe('b');
  });

  it('says when the lead may be luck, when it is sure, and when there is none', () => {
    const text = (rows: typeof two): string =>
      new SideBySide(rows, { on: 'spills_per_hour', seed: 1 }).text();
    expect(text([row('a', [1, 2, 3]), row('b', [3, 2, 4])])).toContain('that may be luck');
    expect(text([row('a', [1, 2, 3]), row('b', [11, 12.5, 13])])).not.toContain('luck (');
    expect(text([row('a', [1, 2, 3]), row('b', [2, 3, 4])])).toContain('by 1.00 per hour in every show');
    expect(text([row('a', [1, 2, 3]), row('b', [1, 2, 3])])).toContain('b does exactly as well');
  });

  it('gives the figures of a run, show by show on the same luck', async () => {
    const bench = load('scenarios/bench-one.yaml');
    const options = { replications: 4, seed: 3, workers: 1 };
    const both = await sideBySide({ now: bench, again: bench }, { ...options, on: 'throughput_bps' });
    const { result } = await run(bench, options);
    expect(both.rows[0]?.estimate).toEqual(result.throughput_bps);
    expect(both.rows[1]?.values).toEqual(both.rows[0]?.values);
  });

  it('needs two loops and two shows', async () => {
    const bench = load('scenarios/bench-one.yaml');
    await expect(sideBySide({ alone: bench })).rejects.toThrow(/loops is 1 but must be two or more/);
    await expect(sideBySide({ a: bench, b: bench }, { replications: 1 })).rejects.toThrow(
      /replications is 1 but must be a whole number from 2/,
    );
  });

  it('names those there are when a name is wrong', () => {
    expect(() => new SideBySide(two, { on: 'throughput_bps', seed: 1 }).ahead('b', 'x')).toThrow(
      'there is no "x" here, only a, b',
    );
  });
});
