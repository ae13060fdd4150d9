import { loadScenarioFile, replicate, toRunResult } from '@lapwright/sim-core';
import { expect, it } from 'vitest';
import { partOf } from './length.js';

/*
 * The scenario loop50 against an independent program: the same rules written by hand in C, with another generator, a
 * binary heap and no line in common with this project. 100 replications of 8 h gave these means and standard errors; that
 * of the empty share was computed from 4000 replications of the same program (0.0139 per replication).
 */
const INDEPENDENT = {
  throughput: { mean: 0.7054, se: 0.0014 },
  lap: { mean: 1046.0, se: 2.4 },
  spillsPerShow: { mean: 1443.6, se: 35.6 },
  emptyShare: { mean: 0.3469, se: 0.0014 },
};

const SHOWS = partOf(100, 0.4);

it('loop50 agrees with an independent program within three combined standard errors', async () => {
  const scenario = loadScenarioFile('scenarios/loop50.yaml');
  const { summary } = await replicate(scenario.spec, { seed: 1, replications: SHOWS, workers: 2 });
  const result = toRunResult(scenario, summary, { seed: 1, asked: SHOWS, confidence: 0.6826894921370859 });
  // At this confidence half an interval is one standard error, but for the factor of Student's t, below 1.02.
  const se = ({ low, high }: { low: number | null; high: number | null }): number =>
    ((high ?? NaN) - (low ?? NaN)) / 2;
  // All cycles together: modules of batch b turn 1/b times as often.
  const weights = scenario.spec.modules.map(({ batch }) => 1 / batch);
  const whole = weights.reduce((sum, weight) => sum + weight, 0);
  const weighted = (values: readonly number[]): number =>
    values.reduce((sum, value, m) => sum + value * (weights[m] ?? 0), 0) / whole;
  const starved = result.modules.map(({ starved_share: share }) => share);
  const ours = {
    throughput: { mean: result.throughput_bps.mean ?? NaN, se: se(result.throughput_bps) },
    lap: { mean: result.loop_time_s.mean.mean ?? NaN, se: se(result.loop_time_s.mean) },
    spillsPerShow: { mean: 8 * (result.spills_per_hour.mean ?? NaN), se: 8 * se(result.spills_per_hour) },
    emptyShare: { mean: weighted(starved.map(({ mean }) => mean ?? NaN)), se: INDEPENDENT.emptyShare.se },
  };
  for (const name of ['throughput', 'lap', 'spillsPerShow', 'emptyShare'] as const) {
    const z = (ours[name].mean - INDEPENDENT[name].mean) / Math.hypot(ours[name].se, INDEPENDENT[name].se);
    expect(Math.abs(z), `${name}: ${ours[name].mean} against ${INDEPENDENT[name].mean}`).toBeLessThan(3);
  }
}, 300_000);
