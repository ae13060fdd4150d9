import { describe, expect, it } from 'vitest';
import { showsHere } from '../../packages/sim-core/src/experiments/index.js';
import type { LoopSpec } from '../../packages/sim-core/src/model/spec/index.js';
import { measureEstimate, Study, system } from '../../packages/sim-core/src/studies/index.js';
import { basketOfModule, chain, exponential, loop, machine, poisson, steady } from './specs.js';

/*
 * Whole studies with known answers, a thousand times: do 95 % intervals hold the truth in 95 % of them? Replications are
 * short and few, so that all of them take seconds; each is measured after a warm-up of ten relaxation times or more.
 */

const STUDIES = 1000;
const SHOWS = 10;

/** In which share of the studies the interval of a measure holds the true value. */
async function coverage(spec: LoopSpec, measure: string, truth: number): Promise<number> {
  const study = new Study({ seed: 2024, source: showsHere() });
  const one = system('case', spec);
  let held = 0;
  for (let i = 0; i < STUDIES; i++) {
    await study.simulate([one], SHOWS, i * SHOWS);
    const { low, high } = measureEstimate(measure, study.column(one, measure, SHOWS, i * SHOWS), {
      show: spec.show,
      confidence: 0.95,
    });
    if ((low ?? Infinity) <= truth && truth <= (high ?? -Infinity)) held++;
  }
  return held / STUDIES;
}

describe('95 % intervals of 1,000 studies of 10 shows', () => {
  it('hold the spill rate of M/M/1/K in 93.5 to 96.5 % of them', async () => {
    // P(full) = (1 - rho) rho^K / (1 - rho^(K + 1)); the spill rate is lambda P(full) (Kleinrock 1975, Queueing Systems 1,
    // 3.6, from memory).
    const [lambda, mu, K] = [1.2, 1, 5];
    const rho = lambda / mu;
    const full = ((1 - rho) * rho ** K) / (1 - rho ** (K + 1));
    const module = machine(exponential(1 / mu), { basket: basketOfModule(K) });
    const spec = chain({ every: poisson(lambda) }, [module], steady(40, 160));
    const share = await coverage(spec, 'spills_per_hour', 3600 * lambda * full);
    expect(share).toBeGreaterThanOrEqual(0.935);
    expect(share).toBeLessThanOrEqual(0.965);
  });

  it('hold the throughput of a closed loop of exponential machines in 93.5 to 96.5 % of them', async () => {
    // N balls, M like machines: throughput mu N / (N + M - 1) (Gordon & Newell 1967, Operations Research 15, 254-265;
    // all ways of placing the balls are equally likely).
    const [mu, M, N] = [1, 4, 6];
    const modules = Array.from({ length: M }, (_, m) => machine(exponential(1 / mu), { id: `m${m}` }));
    const spec = loop(N, modules, steady(80, 120));
    const share = await coverage(spec, 'throughput_bps', (mu * N) / (N + M - 1));
    expect(share).toBeGreaterThanOrEqual(0.935);
    expect(share).toBeLessThanOrEqual(0.965);
  });
});
