import { describe, expect, it } from 'vitest';
import { collect, type Simulators } from '../../../packages/sim-core/src/experiments/collect.js';
import { RunSummary } from '../../../packages/sim-core/src/experiments/runSummary.js';
import { measurePlan, simulate } from '../../../packages/sim-core/src/index.js';
import { chain, lasting, module } from '../../build.js';

const spec = chain([module('a', { cycle: { family: 'exponential', mean: 0.8 } })], 1, { show: lasting(120) });
const plan = measurePlan(spec);

/** Simulators that finish when the test says so. */
function fakePool(
  size: number,
  order: (replication: number) => Promise<void> | void,
): Simulators & { closed: number } {
  const pool = {
    size,
    closed: 0,
    run: async (replication: number) => {
      await order(replication);
      return simulate(spec, { seed: 1, replication, plan });
    },
    close: async () => {
      pool.closed++;
    },
  };
  return pool;
}

const later = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

describe('collect', () => {
  it('gives the same estimates in whatever order replications finish', async () => {
    const results: string[] = [];
    for (const order of [() => undefined, (r: number) => later((r * 7) % 5), (r: number) => later(8 - r)]) {
      const summary = new RunSummary(spec, plan);
      const done: number[] = [];
      await collect(fakePool(4, order), summary, {
        replications: 9,
        onProgress: ({ done: n }) => done.push(n),
      });
      expect(done).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9]);
      results.push(JSON.stringify(summary.estimates(0.95)));
    }
    expect(new Set(results).size).toBe(1);
  });

  it('keeps what is finished when one replication fails, up to the gap it leaves', async () => {
    const summary = new RunSummary(spec, plan);
    const pool = fakePool(2, async (replication) => {
      if (replication === 3) {
        await later(20);
        throw new Error('out of memory');
      }
    });
    const { stopped, leftOut } = await collect(pool, summary, { replications: 100 });
    expect(stopped).toBeInstanceOf(Error);
    expect((stopped as Error).message).toBe('replication 3: out of memory');
    expect(summary.replications).toBe(3);
    // Replications 4, 5, ... went on in the other simulator meanwhile.
    expect(leftOut).toBeGreaterThan(0);
    expect(pool.closed).toBeGreaterThan(0);
  });

  it('stops at once when the signal says so', async () => {
    const controller = new AbortController();
    const summary = new RunSummary(spec, plan);
    const pool = fakePool(2, async (replication) => {
      await later(2);
      if (replication === 6) controller.abort();
    });
    const { stopped } = await collect(pool, summary, { replications: 1_000_000, signal: controller.signal });
    expect(stopped).toBe('aborted');
    expect(summary.replications).toBeGreaterThan(4);
    expect(summary.replications).toBeLessThan(12);
    expect(pool.closed).toBeGreaterThan(0);
  });

  it('is whole when the signal comes after the last replication', async () => {
    const controller = new AbortController();
    const summary = new RunSummary(spec, plan);
    const collected = await collect(
      fakePool(2, () => undefined),
      summary,
      {
        replications: 5,
        signal: controller.signal,
        onProgress: ({ done }) => done === 5 && controller.abort(),
      },
    );
    expect(collected).toEqual({ leftOut: 0 });
  });

  it('does nothing when the signal was given before it began', async () => {
    const summary = new RunSummary(spec, plan);
    const { stopped } = await collect(
      fakePool(2, () => undefined),
      summary,
      { replications: 5, signal: AbortSignal.abort() },
    );
    expect([stopped, summary.replications]).toEqual(['aborted', 0]);
  });
});
