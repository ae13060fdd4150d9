import { describe, expect, it } from 'vitest';
import { sparesAnswer } from '../../../packages/sim-core/src/answers/index.js';
import type { Spares, SpareSet } from '../../../packages/sim-core/src/studies/index.js';

const estimate = (mean: number, low: number, high: number): SpareSet['gain'] => ({
  mean,
  low,
  high,
  confidence: 0.95,
  replications: 40,
});

const FLOW = 'throughput_bps';

/** One spare and none, with what the spare gains in spills and in flow. */
function found(spills: SpareSet['gain'], flow: SpareSet['gain'], more: Partial<Spares> = {}): Spares {
  const set = (spares: readonly string[], gain: SpareSet['gain'], other: SpareSet['gain']): SpareSet => ({
    spares,
    estimate: estimate(50, 40, 60),
    measures: [],
    gain,
    gains: [{ measure: FLOW, gain: other }],
    judged: true,
  });
  const nothing = estimate(0, 0, 0);
  return {
    on: 'spills_per_hour',
    margin: 5,
    also: [{ measure: FLOW, margin: 0.05 }],
    named: ['lift'],
    unnamed: [],
    pulled: ['mill'],
    sets: [set(['lift'], spills, flow), set([], nothing, nothing)],
    bring: ['lift'],
    rival: null,
    failed: { spares: [], measure: 'spills_per_hour', gain: spills },
    replications: 40,
    ...more,
  };
}

const says = (spares: Spares): readonly string[] => {
  const { verdict, sentence } = sparesAnswer('Loop', spares);
  return [verdict, sentence];
};

describe('which spares to bring, in words', () => {
  it('is a whole sentence when there is no rival', () => {
    const [verdict, sentence] = says(found(estimate(20, 12, 28), estimate(0, 0, 0)));
    expect(verdict).toBe('bring');
    expect(sentence).toMatch(/^Bring lift: balls spilled better by 20 per hour/);
    expect(sentence).not.toMatch(/: ,|, and \./);
  });

  it('is undecided when what is gained over none may be luck, or is nothing', () => {
    const [luck, sentence] = says(found(estimate(4, -2, 10), estimate(0, 0, 0)));
    expect([luck, sentence]).toEqual(['undecided', expect.stringMatching(/^Undecided: .*which may be luck/)]);
    const [nothing, same] = says(
      found(estimate(0, 0, 0), estimate(0, 0, 0), {
        failed: { spares: [], measure: 'spills_per_hour', gain: estimate(3, -3, 9) },
      }),
    );
    expect([nothing, same]).toEqual([
      'undecided',
      expect.stringMatching(/Balls spilled the same as with no spare/),
    ]);
    expect(same).not.toMatch(/better by 0/);
  });

  it('names first the measure that decides', () => {
    const [verdict, sentence] = says(
      found(estimate(0, 0, 0), estimate(0.2, 0.15, 0.25), {
        failed: { spares: [], measure: FLOW, gain: estimate(0.2, 0.15, 0.25) },
      }),
    );
    expect(verdict).toBe('bring');
    expect(sentence).toMatch(
      /^Bring lift: balls passing the counter better by 0\.2.*; balls spilled the same/,
    );
  });

  it('calls a loss a loss', () => {
    const [, sentence] = says(found(estimate(-20, -28, -12), estimate(0, 0, 0)));
    expect(sentence).toMatch(/Balls spilled worse by 20 per hour/);
  });
});
