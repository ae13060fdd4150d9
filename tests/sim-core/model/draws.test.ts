import { describe, expect, it } from 'vitest';
import {
  buildDistribution,
  type DistributionSpec,
} from '../../../packages/sim-core/src/distributions/index.js';
import { Draws } from '../../../packages/sim-core/src/model/draws.js';
import { DrawTable } from '../../../packages/sim-core/src/model/drawTable.js';
import { onTick } from '../../../packages/sim-core/src/model/tick.js';
import { stream } from '../../../packages/sim-core/src/random/index.js';

const FAMILIES: readonly DistributionSpec[] = [
  { family: 'constant', value: 2.25 },
  { family: 'uniform', min: 0.5, max: 4 },
  { family: 'exponential', mean: 60 },
  { family: 'lognormal', mean: 0.9, cv: 0.05 },
  { family: 'normal', mean: 21, cv: 0.3 },
  { family: 'triangular', min: 1, mode: 2, max: 5 },
  { family: 'weibull', scale: 3, shape: 2 },
  { family: 'empirical', values: [0.5, 0.9, 4] },
];

describe('Draws', () => {
  it('gives the values of each distribution’s own sample from the same stream, on a tick, however streams take turns', () => {
    const place = (i: number): string => `m${i}`;
    const draws = new Draws(
      new DrawTable(FAMILIES.map((distribution, i) => ({ place: place(i), purpose: 'cycle', distribution }))),
      7,
      3,
    );
    const samples = FAMILIES.map((spec, i) => {
      const uniform = stream({ seed: 7, replication: 3, place: place(i), purpose: 'cycle' });
      const distribution = buildDistribution(spec);
      return () => onTick(distribution.sample(uniform));
    });
    for (let round = 0; round < 1000; round++)
      for (const [i, sample] of samples.entries())
        // Some streams are asked more often than others.
        for (let again = 0; again <= i % 3; again++) expect(draws.draw(i)).toBe(sample());
  });

  it('gives the numbers of a stream without a distribution as they are', () => {
    const draws = new Draws(new DrawTable([{ place: 'a', purpose: 'phase' }]), 1, 0);
    const uniform = stream({ seed: 1, replication: 0, place: 'a', purpose: 'phase' });
    for (let i = 0; i < 500; i++) expect(draws.uniform(0)).toBe(uniform());
  });
});
