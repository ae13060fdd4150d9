import { describe, expect, it } from 'vitest';
import { exampleLoop } from '../../docs/exampleLoop.js';
import {
  MEASURES,
  showsHere,
  type ShowSource,
  type StudyTask,
} from '../../../packages/sim-core/src/experiments/index.js';
import {
  journalHead,
  readJournal,
  ShardDone,
  Study,
  StudyStopped,
  system,
  ValueTable,
} from '../../../packages/sim-core/src/studies/index.js';

const A = system('a', exampleLoop);
const B = system('b', { ...exampleLoop, counter: 1 });

/** A source whose values tell which show they are of, and that finishes shows out of turn. */
function source(
  fail?: (task: StudyTask) => void,
): ShowSource & { readonly run: ShowSource['run']; asked: number } {
  const made = {
    size: 3,
    asked: 0,
    run: async (task: StudyTask): Promise<number[]> => {
      made.asked++;
      fail?.(task);
      await new Promise((resolve) => setTimeout(resolve, (task.replication * 7) % 5));
      return MEASURES.map((_, i) => 1000 * i + task.replication + task.spec.counter / 2 + 1 / 3);
    },
    close: () => Promise.resolve(),
  };
  return made;
}

function read(text: string, seed = 1): ValueTable {
  const table = new ValueTable();
  readJournal(text, 'x.journal', seed, table);
  return table;
}

describe('a study', () => {
  it('simulates what it is asked for, each show once', async () => {
    const shows = source();
    const study = new Study({ seed: 1, source: shows });
    await study.simulate([A, B], 10);
    await study.simulate([A], 12);
    expect(shows.asked).toBe(22);
    expect(study.column(A, 'spills_per_hour', 12)).toEqual(
      Array.from({ length: 12 }, (_, r) => 1000 + r + 1 / 3),
    );
  });

  it('goes on from its journal, whatever the order and wherever it was cut off', async () => {
    const lines: string[] = [];
    await new Study({ seed: 1, source: source(), onLine: (line) => lines.push(line) }).simulate([A, B], 10);
    const text = `${journalHead(1)}\n${lines.join('\n')}\n`;
    for (const cut of [0, 5, 40, 200, 333, text.length - 1, text.length]) {
      const table = new ValueTable();
      const whole = readJournal(text.slice(0, cut), 'x.journal', 1, table);
      expect(whole).toBeLessThanOrEqual(cut);
      expect(text.slice(0, whole).endsWith('\n') || whole === 0).toBe(true);
      const shows = source();
      const study = new Study({ seed: 1, source: shows, table });
      const known = table.size;
      await study.simulate([A, B], 10);
      expect(shows.asked).toBe(20 - known);
      expect([study.column(A, 'loop_time_s', 10), study.column(B, 'loop_time_s', 10)]).toEqual(
        [A, B].map((one) => read(text).column(one.key, 4, 10)),
      );
    }
  });

  it('can be done in pieces', async () => {
    const lines: string[] = [];
    for (const number of [2, 0, 1]) {
      const onLine = (line: string): void => void lines.push(line);
      const part = new Study({ seed: 1, source: source(), onLine, shard: { number, of: 3 } });
      // The others' shows are missing, so it cannot go on.
      await expect(part.simulate([A], 10)).rejects.toThrow(ShardDone);
    }
    expect(lines).toHaveLength(10);
    expect(read(`${journalHead(1)}\n${lines.join('\n')}\n`).column(A.key, 0, 10)).toEqual(
      Array.from({ length: 10 }, (_, r) => r + 1 / 3),
    );
  });

  it('keeps what is finished when it is stopped or a show fails', async () => {
    const controller = new AbortController();
    const lines: string[] = [];
    const stopped = new Study({
      seed: 1,
      source: source(),
      signal: controller.signal,
      onLine: (line) => {
        lines.push(line);
        if (lines.length === 4) controller.abort();
      },
    });
    await expect(stopped.simulate([A], 100)).rejects.toThrow(StudyStopped);
    expect(lines.length).toBeGreaterThanOrEqual(4);
    expect(lines.length).toBeLessThan(10);
    const failing = source(({ replication }) => {
      if (replication === 5) throw new Error('out of luck');
    });
    await expect(new Study({ seed: 1, source: failing }).simulate([A], 9)).rejects.toThrow(/a: out of luck/);
  });

  it('names all lines that cannot be its shows, whatever is read in them, and simulates none', async () => {
    const readings = [
      undefined,
      { kind: 'stops' },
      { kind: 'watch', module: 'slow' },
      { kind: 'flood', fromSeconds: 600, toSeconds: 1200, moments: 2 },
      {
        kind: 'stop',
        place: 1,
        atSeconds: 600,
        remedy: { kind: 'itself', time: { family: 'constant', value: 120 } },
      },
    ] as const;
    for (const reading of readings) {
      const loop = system('loop', exampleLoop, reading);
      const lines: string[] = [];
      const first = new Study({ seed: 1, source: showsHere(), onLine: (line) => lines.push(line) });
      await first.simulate([loop], 3);
      // One value less, one more, and one as it was.
      const spoilt = lines.map((line, i) =>
        i === 0 ? line.replace(/,[^,]+\]/, ']') : i === 1 ? line.replace(']', ',1]') : line,
      );
      const shows = source();
      const study = new Study({
        seed: 1,
        source: shows,
        table: read(`${journalHead(1)}\n${spoilt.join('\n')}\n`),
      });
      await expect(study.simulate([loop], 3)).rejects.toThrow(
        /^x\.journal:2:1: \d+ values are not .*\nx\.journal:3:1: [^\n]*$/,
      );
      expect(shows.asked).toBe(0);
      const good = new Study({
        seed: 1,
        source: shows,
        table: read(`${journalHead(1)}\n${lines.join('\n')}\n`),
      });
      await good.simulate([loop], 3);
      expect([shows.asked, good.row(loop, 2)]).toEqual([0, first.row(loop, 2)]);
    }
  });

  it('tells systems apart by what they are, not by what they are called', () => {
    expect(system('other words', { ...exampleLoop, name: 'other' }).key).toBe(A.key);
    expect(B.key).not.toBe(A.key);
  });
});

describe('a journal', () => {
  it.each([
    ['{"kind":"lapwright-run"}\n', /x\.journal:1:1: this is not a journal of a study/],
    ['scenario\n', /not a journal/],
    [`${journalHead(2)}\n`, /this journal is of seed 2, not 1/],
    [`${journalHead(1).replace('"format":2', '"format":0')}\n`, /another build of the program/],
    [
      `${journalHead(1).replace('"program":"', '"program":"9')}\n`,
      /written by version 9\S+ \(model \d+\) of the program, and this is version/,
    ],
    [journalHead(1).slice(0, 30).replace('kind', 'kin'), /x\.journal:1:1: this is not a journal/],
    [
      `${journalHead(1)}\n{"s":"k","r":0,"v":[1]}\n{"s":"k","r":0,"v":[1]}\n{"s":"k","r":0,"v":[2]}\n`,
      /^x\.journal:4:1: show 0 of system k has other values here than in x\.journal:2\. [^\n]*$/,
    ],
    [`${journalHead(1)}\n${'?\n'.repeat(150)}`, /x\.journal:101:1/],
    [`${journalHead(1)}\nnonsense\n{"s":1}\n`, /x\.journal:2:1: .*\n.*x\.journal:3:1/],
    [`${journalHead(1)}\n{"s":"k","r":-1,"v":[]}\n`, /not a line of a journal/],
  ])('that is none, or of something else, is refused: %s', (text, message) => {
    expect(() => read(text)).toThrow(message);
  });
});
