import { describe, expect, it } from 'vitest';
import { howRareAnswer } from '../../../packages/sim-core/src/answers/index.js';
import type { HowRare } from '../../../packages/sim-core/src/studies/index.js';

const estimate = (mean: number, low: number, high: number | null) =>
  ({ mean, low, high, confidence: 0.95, replications: 300 }) as const;

const FOUND: HowRare = {
  module: 'old-mill',
  method: 'splitting',
  levels: [{ share: 0.5, copies: 4 }],
  in_a_show: estimate(0.0004, 0.0002, 0.0007),
  in_an_hour: estimate(0.0001, 0.00005, 0.0002),
  per_hour: estimate(0.01, 0.005, 0.02),
  starts: 300,
  starts_with_spill: 20,
  shows: 700.4,
  pilot_shows: 200.2,
  worth_shows: 23_456,
};

describe('the answer on how rarely a basket runs over', () => {
  it('tells a small chance as one in so many shows, with its interval, the starts and the method', () => {
    const { sentence, verdict, sure, next } = howRareAnswer('Loop', FOUND, 'loop.yaml');
    expect(verdict).toBe('rare');
    expect(sentence).toBe(
      'The basket of old-mill runs over in about 1 of 2,500 shows: 0.040 % (95 % interval: 0.020 to 0.070 %), 300 starts, by multilevel splitting.',
    );
    expect(sure.join(' ')).toContain('700 whole shows; with plain shows it would take about 23,000');
    expect(next[0]).toContain('-n 1200');
  });

  it('gives an upper limit where nothing was seen, and does not call it zero', () => {
    const none = { ...FOUND, starts_with_spill: 0, worth_shows: null, in_a_show: estimate(0, 0, 0.0122) };
    const { sentence, verdict, pictures } = howRareAnswer('Loop', none);
    expect(verdict).toBe('not seen');
    expect(sentence).toContain('in none of 300 starts: in at most 1.2 % of the shows');
    expect(pictures).toEqual([]);
  });

  it('says so when plain shows see it often', () => {
    const often: HowRare = {
      ...FOUND,
      method: 'plain',
      levels: [],
      module: null,
      in_a_show: estimate(0.5, 0.4, 0.6),
      starts_with_spill: 150,
    };
    const { sentence, verdict, tables } = howRareAnswer('Loop', often);
    expect(verdict).toBe('not rare');
    expect(sentence).toBe(
      'Some basket runs over in 50 % (95 % interval: 40 to 60 %) of the shows, 300 plain shows.',
    );
    expect(tables).toHaveLength(1);
  });
});
