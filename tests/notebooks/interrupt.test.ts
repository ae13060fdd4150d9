import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Executed, Kernel, type Output } from './kernel.js';

/*
 * The interrupt button, and the end of a kernel that is busy. A kernel goes through several interruptions and ends by itself
 * after all of them.
 */

const FIRST_CELL = `import * as tslab from 'tslab';
import { compare, connect, load, run } from '@lapwright/sim-notebooks';
connect(tslab);
const demo = load('scenarios/demo.yaml');`;

let kernel: Kernel;
async function begin(): Promise<void> {
  kernel = await Kernel.start();
  expect((await kernel.execute(FIRST_CELL)).status).toBe('ok');
}
async function end(): Promise<void> {
  expect(await kernel.close(), 'the kernel ended by itself').toBe(true);
}

const plain = (output: Output | undefined): string =>
  output === undefined
    ? ''
    : output.output_type === 'stream'
      ? output.text
      : String(output.data['text/plain']);

const SOME_DONE = /^[1-9]\d* of \d+ shows simulated, about/;

/** Runs a cell and interrupts it as soon as its progress says that a show is done. */
function interrupted(code: string): Promise<Executed> {
  let pressed = false;
  return kernel.execute(code, {
    limit: 120_000,
    watch: (outputs) => {
      if (pressed || !outputs.some((output) => SOME_DONE.test(plain(output)))) return;
      pressed = true;
      kernel.interrupt();
    },
  });
}

describe('the interrupt button', () => {
  beforeAll(begin);
  afterAll(end);

  it('ends a run with the result of the shows that were finished, and the next cell runs', async () => {
    const { status, outputs } = await interrupted(
      'const part = await run(demo, { replications: 5000 });\nawait run(demo, { replications: 5000 });',
    );
    expect(status).toBe('error');
    const [told, result, last] = outputs.map(plain);
    expect(outputs).toHaveLength(3);
    const [, done] = /^Stopped: (\d+) of 5000 shows were finished\.$/.exec(told ?? '') ?? [];
    expect(Number(done)).toBeGreaterThan(0);
    expect(result).toMatch(
      new RegExp(`Stopped: ${done} of 5000 shows were finished\\.[\\s\\S]*only ${done} of 5000 shows`),
    );
    // What comes after in the same cell is not begun.
    expect(last).toBe('Stopped.\n');
    const next = await kernel.execute(
      'const five = await run("scenarios/chain-of-five.yaml", { replications: 2 }); five.result.replications',
    );
    expect(next.status, next.outputs.map(plain).join('\n')).toBe('ok');
    expect(plain(next.outputs.at(-1))).toBe('2\n');
  });

  it('keeps the partial result for the cells after it', async () => {
    const { status } = await interrupted('const part = await run(demo, { replications: 5000 });');
    expect(status).toBe('ok');
    const next = await kernel.execute('[part.result.partial, part.result.replications > 0]');
    expect(plain(next.outputs[0])).toBe('[ true, true ]\n');
  });

  it('ends a question with a plain sentence, twice, and it goes on from there', async () => {
    const ask = "await compare(demo, demo.set('charge', 640), { replications: 500 })";
    const counts: number[] = [];
    for (const _ of [1, 2]) {
      const { status, outputs } = await interrupted(ask);
      expect(status).toBe('error');
      const said = plain(outputs.at(-1));
      expect(said).toMatch(
        /^Stopped: \d+ of \d+ shows were finished\. They are kept: asked again, it goes on from there\.\n$/,
      );
      counts.push(Number(/of (\d+) shows/.exec(said)?.[1]));
    }
    expect(counts[0]).toBe(1000);
    expect(counts[1]).toBeLessThan(1000);
    expect((await kernel.execute('1 + 1')).outputs.map(plain)).toEqual(['2\n']);
  });

  it('still ends a cell of somebody else', async () => {
    await interrupted('const part = await run(demo, { replications: 5000 });');
    let begun = (): void => undefined;
    const begins = new Promise<void>((resolve) => (begun = resolve));
    // Begun a moment after the cell is started: a press while the kernel still starts it is lost, whoever's cell it is.
    const waiting = kernel.execute(
      'const after = (ms) => new Promise((resolve) => setTimeout(resolve, ms).unref()); await after(300); console.log("begun"); await after(50_000);',
      { watch: () => begun() },
    );
    await begins;
    kernel.interrupt();
    const started = performance.now();
    expect((await waiting).status).toBe('error');
    expect(performance.now() - started).toBeLessThan(20_000);
  });
});

describe('a busy kernel', () => {
  beforeAll(begin);

  it('writes its progress ten times a second at most', async () => {
    let times = 0;
    const started = performance.now();
    await kernel.execute("await run('scenarios/chain-of-five.yaml', { replications: 100 });", {
      watch: () => times++,
    });
    expect(times).toBeGreaterThan(1);
    expect(times).toBeLessThanOrEqual((performance.now() - started) / 100 + 3);
  });

  it('ends at once when it is closed', async () => {
    let begun = (): void => undefined;
    const working = new Promise<void>((resolve) => (begun = resolve));
    const busy = kernel
      .execute('await run(demo, { replications: 5000 });', {
        limit: 120_000,
        watch: (outputs) => {
          if (outputs.some((output) => SOME_DONE.test(plain(output)))) begun();
        },
      })
      .catch(() => undefined);
    await working;
    // That worker threads let go is tested where they are: here a failed drawing of the progress may end it as well.
    await end();
    await busy;
  });
});
