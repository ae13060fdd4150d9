import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, afterEach, describe, expect, it } from 'vitest';
import { ThreadPool } from '../../../packages/sim-core/src/threads/index.js';

const folder = mkdtempSync(join(tmpdir(), 'lapwright-threads-'));
afterAll(() => rmSync(folder, { recursive: true }));

const SERVE = import.meta
  .resolve('../../../packages/sim-core/src/threads/serve.js')
  .replace('/src/', '/dist/');

/** A module for threads, of its own for each test, so that none finds those of another. */
let modules = 0;
function threadModule(): URL {
  const file = join(folder, `module${modules++}.mjs`);
  writeFileSync(
    file,
    `import { threadId } from 'node:worker_threads';
import { serve } from ${JSON.stringify(SERVE)};
let before = 0;
let rests = 0;
serve(work, () => rests++);
function work(task) {
  if (task === 'fail') throw new RangeError('it cannot be done');
  if (task === 'throw text') throw 'nothing but text';
  if (task === 'end') process.exit(3);
  if (task === 'never') for (;;);
  return { task, threadId, before: before++, rests };
}
`,
  );
  return pathToFileURL(file);
}

interface Done {
  readonly task: unknown;
  readonly threadId: number;
  /** Tasks that this thread had done before. */
  readonly before: number;
  /** How often it was told that it stands by. */
  readonly rests: number;
}

const open: ThreadPool<unknown, Done>[] = [];
function poolOf(size: number, module: URL): ThreadPool<unknown, Done> {
  const pool = new ThreadPool<unknown, Done>(size, module, { loose: false });
  open.push(pool);
  return pool;
}
afterEach(async () => {
  await Promise.all(open.splice(0).map((pool) => pool.close()));
});

describe('a pool of threads', () => {
  it('does more tasks than it has threads, in their order', async () => {
    const pool = poolOf(1, threadModule());
    const done = await Promise.all(['a', 'b', 'c'].map((task) => pool.run(task)));
    expect(done.map(({ task, before }) => [task, before])).toEqual([
      ['a', 0],
      ['b', 1],
      ['c', 2],
    ]);
  });

  it('has as many threads as it was asked for', async () => {
    const pool = poolOf(2, threadModule());
    const done = await Promise.all(['a', 'b'].map((task) => pool.run(task)));
    expect(new Set(done.map(({ threadId }) => threadId)).size).toBe(2);
  });

  it('starts no more threads than there is something to do for', async () => {
    const pool = poolOf(8, threadModule());
    const first = await pool.run('a');
    expect(await pool.run('b')).toEqual({ ...first, task: 'b', before: 1 });
  });

  it('tells how a task failed, and goes on', async () => {
    const pool = poolOf(1, threadModule());
    await expect(pool.run('fail')).rejects.toThrow('it cannot be done');
    await expect(pool.run('throw text')).rejects.toThrow('nothing but text');
    expect((await pool.run('a')).before).toBe(0);
  });

  it('has another thread in the place of one that died', async () => {
    const pool = poolOf(1, threadModule());
    const first = await pool.run('a');
    await expect(pool.run('end')).rejects.toThrow('a worker thread ended');
    const next = await pool.run('b');
    expect(next.before).toBe(0);
    expect(next.threadId).not.toBe(first.threadId);
  });

  it('leaves its threads to the next pool', async () => {
    const module = threadModule();
    const first = poolOf(1, module);
    const { threadId } = await first.run('a');
    await first.close();
    expect(await poolOf(1, module).run('b')).toEqual({ task: 'b', threadId, before: 1, rests: 1 });
  });

  it('shares no thread with a pool that is open', async () => {
    const module = threadModule();
    const one = await poolOf(1, module).run('a');
    const other = await poolOf(1, module).run('b');
    expect(other.threadId).not.toBe(one.threadId);
  });

  it('does not take the threads of another module', async () => {
    const first = poolOf(1, threadModule());
    await first.run('a');
    await first.close();
    expect((await poolOf(1, threadModule()).run('b')).before).toBe(0);
  });

  it('keeps no more of them than there are cores', async () => {
    const module = threadModule();
    const many = availableParallelism() + 2;
    const first = poolOf(many, module);
    await Promise.all(Array.from({ length: many }, (_, i) => first.run(i)));
    await first.close();
    const next = poolOf(many, module);
    const done = await Promise.all(Array.from({ length: many }, (_, i) => next.run(i)));
    expect(done.filter(({ before }) => before > 0).length).toBeLessThanOrEqual(availableParallelism());
    expect(done.some(({ before }) => before > 0)).toBe(true);
  });

  it('ends what is going on when it is closed, and what waits', async () => {
    const module = threadModule();
    const pool = poolOf(1, module);
    const going = pool.run('never');
    const waiting = pool.run('a');
    const told = Promise.all([
      expect(going).rejects.toThrow('ended'),
      expect(waiting).rejects.toThrow('ended'),
    ]);
    await pool.close();
    await told;
    await expect(pool.run('b')).rejects.toThrow('ended');
    // The thread that could not be stopped otherwise is not kept.
    expect((await poolOf(1, module).run('c')).before).toBe(0);
  });

  it.each([
    ['that stand by', 'await pool.run(1); await pool.close();'],
    ['of a pool that was never closed', 'await pool.run(1);'],
    ['that work, of a loose pool', "void pool.run('never');"],
  ])('does not keep the program from ending: threads %s', (_, what) => {
    const index = SERVE.replace('serve.js', 'index.js');
    const file = join(folder, 'program.mjs');
    writeFileSync(
      file,
      `import { ThreadPool } from ${JSON.stringify(index)};
const pool = new ThreadPool(1, new URL(${JSON.stringify(threadModule().href)}), { loose: ${what.includes('never')} });
${what}
console.log('done');
`,
    );
    // Threads that stand by end after two minutes.
    const { stdout, status } = spawnSync(process.execPath, [file], { encoding: 'utf8', timeout: 60_000 });
    expect({ stdout, status }).toEqual({ stdout: 'done\n', status: 0 });
  });
});
