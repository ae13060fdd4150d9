import { spawnSync } from 'node:child_process';
import { parseScenario, replicate, StudyPool, toRunResult } from '@lapwright/sim-core';
import { describe, expect, it } from 'vitest';

const LOOP = `name: small
show: { lasts: 1 h }
charge: 60
crew: { minders: 1, notice: 10 s, walk: 10 s }
modules:
  lift:
    basket: 40
    cycle: 1 s
    travel: 5 s
    stops: { jam: { running: { exponential: { mean: 10 min } }, crew: { clear: 2 min } } }
  wheel: { basket: 40, cycle: 0.9 s, travel: 5 s }
`;
const scenario = parseScenario(LOOP);

async function resultOf(loose: boolean, workers: number): Promise<string> {
  const { summary } = await replicate(scenario.spec, { seed: 3, replications: 12, workers, loose });
  return JSON.stringify(toRunResult(scenario, summary, { seed: 3, asked: 12 }));
}

describe('loose worker threads', () => {
  it('give the same result as those that hold the program, on any number of them', async () => {
    const held = await resultOf(false, 2);
    expect(await resultOf(true, 1)).toBe(held);
    expect(await resultOf(true, 3)).toBe(held);
  });

  it('stop when they are told to, with what was finished', async () => {
    const controller = new AbortController();
    const { summary, stopped } = await replicate(scenario.spec, {
      seed: 3,
      replications: 100_000,
      workers: 2,
      loose: true,
      signal: controller.signal,
      onProgress: ({ done }) => done >= 5 && controller.abort(),
    });
    expect(stopped).toBe('aborted');
    expect(summary.replications).toBeGreaterThanOrEqual(5);
    expect(summary.replications).toBeLessThan(100_000);
  });

  it('tell what went wrong in them', async () => {
    const pool = new StudyPool(1, { loose: true });
    const broken = { ...scenario.spec, modules: [] };
    await expect(pool.run({ spec: broken, seed: 1, replication: 0 })).rejects.toThrow(/\w/);
    // And go on with the next.
    expect((await pool.run({ spec: scenario.spec, seed: 1, replication: 0 })).length).toBeGreaterThan(3);
    await pool.close();
    await expect(pool.run({ spec: scenario.spec, seed: 1, replication: 1 })).rejects.toThrow('ended');
  });

  it('let the program end while they work', () => {
    const started = performance.now();
    const program = `import { parseScenario, replicate } from '@lapwright/sim-core';
const { spec } = parseScenario(${JSON.stringify(LOOP.replace('lasts: 1 h', 'lasts: 200 h'))});
void replicate(spec, { seed: 1, replications: 100000, loose: true });
setTimeout(() => process.stdout.write('nothing more to wait for'), 300);`;
    const { stdout, stderr, signal } = spawnSync(
      process.execPath,
      ['--input-type=module', '--eval', program],
      { encoding: 'utf8', timeout: 50_000 },
    );
    expect(stderr).not.toContain('Error');
    expect(signal).toBeNull();
    expect(stdout).toBe('nothing more to wait for');
    expect(performance.now() - started).toBeLessThan(50_000);
  });
});
