import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseScenario, replicate, showsHere, StudyPool, toRunResult } from '@lapwright/sim-core';
import { afterAll, describe, expect, it } from 'vitest';

const folder = mkdtempSync(join(tmpdir(), 'lapwright-loose-'));
afterAll(() => rmSync(folder, { recursive: true }));

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

  it('simulate each loop as it is when they are asked, whatever becomes of it', async () => {
    const pool = new StudyPool(1);
    const spec = structuredClone(scenario.spec);
    const [lift] = spec.modules as unknown as [{ basket: { capacity: number } }];
    const task = { spec, seed: 1, replication: 0 };
    const wide = await pool.run(task);
    lift.basket.capacity = 20;
    (spec.supply as unknown as { placed: number[] }).placed = [20, 30];
    const narrow = await pool.run(task);
    await pool.close();
    expect(narrow).toEqual(await showsHere().run(task));
    expect(narrow).not.toEqual(wide);
  });

  it('make a summary of the loop as it was when they were asked', async () => {
    const spec = structuredClone(scenario.spec);
    const asked = replicate(spec, { seed: 3, replications: 12, workers: 1 });
    (spec.modules as unknown as { stops: unknown[] }[])[0]?.stops.splice(0);
    const { summary } = await asked;
    const result = JSON.stringify(toRunResult(scenario, summary, { seed: 3, asked: 12 }));
    expect(result).toBe(await resultOf(false, 1));
  });

  it('are as many as a whole number says', () => {
    for (const size of [0, -1, 1.5, NaN]) expect(() => new StudyPool(size)).toThrow(/size is .* must be/);
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

  it.each([
    [true, 'ended by itself'],
    [false, 'was ended'],
  ])('let the program end while they work (loose: %s)', (loose, how) => {
    // In a file: worker threads of a program that is typed as an option of Node do not start.
    const file = join(folder, `${how}.mjs`);
    writeFileSync(
      file,
      `import { parseScenario, replicate } from ${JSON.stringify(import.meta.resolve('@lapwright/sim-core'))};
const { spec } = parseScenario(${JSON.stringify(LOOP)});
let shows = 0;
const onProgress = () => {
  if (++shows === 3) process.stdout.write('three shows');
};
void replicate(spec, { seed: 1, replications: 1000000, loose: ${loose}, onProgress });
// Until the first shows are there something else keeps the program.
const waiting = setInterval(() => shows >= 3 && clearInterval(waiting), 20);
`,
    );
    const { stdout, signal, status } = spawnSync(process.execPath, [file], {
      encoding: 'utf8',
      timeout: loose ? 60_000 : 5000,
    });
    if (loose) expect({ stdout, signal, status }).toEqual({ stdout: 'three shows', signal: null, status: 0 });
    else expect(signal).toBe('SIGTERM');
  });
});
