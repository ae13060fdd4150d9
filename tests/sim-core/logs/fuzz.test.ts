import fc from 'fast-check';
import { describeLogProblem, readLog, type ReadLog } from '@lapwright/sim-core';
import { describe, expect, it } from 'vitest';

/*
 * Whatever stands in the files: nothing is lost in silence, nothing crashes, every message says where, and what is read is
 * in order.
 */
const OPTIONS = { seed: 20_260_502, numRuns: 200 } as const;

function lawful(log: ReadLog, rows?: number): void {
  const out = log.problems.reduce((sum, problem) => sum + problem.rows, 0);
  expect(log.used + out).toBe(log.rows);
  if (rows !== undefined) expect(log.rows).toBe(rows);
  for (const problem of log.problems) {
    const { file, severity, line, rows: lost } = problem;
    expect(severity === 'left out').toBe(lost > 0);
    if (lost === 1) expect(line).toBeGreaterThan(0);
    const text = describeLogProblem(problem);
    expect(text.startsWith(line === undefined ? `${file}: ` : `${file}:${line}: `)).toBe(true);
    expect(text).not.toMatch(/[\p{Cc}\u2028\u2029]/u);
  }
  for (const { watched, stops, batches } of log.records) {
    for (const [i, { from, to }] of watched.entries()) {
      expect(from).toBeLessThan(to);
      expect(from).toBeGreaterThanOrEqual(watched[i - 1]?.to ?? 0);
    }
    for (const [i, { from, cleared }] of stops.entries()) {
      if (cleared !== null) expect(cleared).toBeGreaterThanOrEqual(from);
      const before = stops[i - 1];
      if (before !== undefined) expect(from).toBeGreaterThanOrEqual(before.cleared ?? before.from);
    }
    for (const [i, { at, balls }] of batches.entries()) {
      expect(Number.isInteger(balls) && balls >= 0 && balls <= 10_000).toBe(true);
      expect(at).toBeGreaterThan(batches[i - 1]?.at ?? -1);
    }
  }
  for (const [i, { reading, run }] of log.counter.entries()) {
    const before = log.counter[i - 1];
    if (before?.run === run) expect(reading).toBeGreaterThanOrEqual(before.reading);
  }
}

const word = fc.constantFrom(
  'start',
  'end',
  'break',
  'resume',
  'batch',
  'stop',
  'cleared',
  'pulled',
  'back',
  'spill',
  'counter',
  'reset',
  'lap',
  'shift',
  'note',
  'Stop',
  'stopp',
  '',
);
const time = fc.oneof(
  {
    weight: 8,
    arbitrary: fc
      .tuple(fc.integer({ min: 0, max: 25 }), fc.integer({ min: 0, max: 61 }))
      .map(([h, m]) => `${h}:${String(m).padStart(2, '0')}`),
  },
  fc.double({ min: 0, max: 1e5, noNaN: true }).map((seconds) => String(seconds)),
  fc.constantFrom(
    '',
    'noon',
    '10.30',
    '=NOW()',
    'day 2 10:00',
    '2026-05-02 10:00',
    '2026-02-30 10:00',
    '3 min 20 s',
    "'10:05",
    '-5',
    '99:99',
  ),
);
const cell = fc.oneof(
  fc.constantFrom(
    '',
    '3',
    '-1',
    '2.5',
    '1e400',
    '=1+1',
    '@a',
    '+cmd',
    '70 %',
    '150',
    '40',
    '1:20',
    "'",
    '\u202e',
    '#N/A',
    '9007199254740993',
  ),
  fc.string({ maxLength: 8 }),
);
/** Cells written as they are, quoted well, or quoted badly. */
const written = cell.chain((text) =>
  fc.constantFrom(text, `"${text.replaceAll('"', '""')}"`, `"${text}`, `${text}"`, `"${text}"x`),
);
const line = fc
  .tuple(time, fc.constantFrom('', 'a', 'b', 'A ', '"c"'), word, fc.array(written, { maxLength: 6 }))
  .map(([at, module, what, cells]) => [at, module, what, ...cells].join(',').replaceAll(/[\r\n]/g, ' '));
/** A line that counts as a row: not blank, no comment, and not only separators. */
const row = line.filter((text) => !/^[\s'"\ufeff]*#/.test(text) && !/^[\s,"]*$/.test(text));

describe('a log of odd rows', () => {
  it('loses none of them', () => {
    fc.assert(
      fc.property(
        fc.array(row, { maxLength: 40 }),
        fc.constantFrom('\n', '\r\n', '\r'),
        fc.boolean(),
        (rows, end, bench) => {
          const head = bench ? `# module: a${end}` : '';
          const content = `${head}time,module,what,cause,count,level,lasted,note${end}${rows.join(end)}`;
          const log = readLog([{ file: 'odd.csv', content }]);
          // A well-quoted cell has no line end here, so that a line is a row unless two stray marks make one of two.
          const joined = log.problems.filter(
            ({ code, severity }) => code === 'quotes' && severity !== 'left out',
          ).length;
          lawful(log, joined === 0 ? rows.length : undefined);
        },
      ),
      OPTIONS,
    );
  });

  it('is the same whatever the order of its columns, its separator and its encoding', () => {
    const COLUMNS = ['time', 'module', 'what', 'cause', 'count'];
    const clean = fc.constantFrom('', '3', 'jam', 'old mill', '12', '-4', 'x"y', '=1+1');
    const rows = fc.array(fc.tuple(time, fc.constantFrom('', 'a', 'b'), word, clean, clean), {
      maxLength: 20,
    });
    const separators = fc.constantFrom(',', ';', '\t');
    const encodings = fc.constantFrom('utf8', 'utf16le', 'latin1');
    const order = fc.shuffledSubarray([0, 1, 2, 3, 4], { minLength: 5, maxLength: 5 });
    fc.assert(
      fc.property(rows, separators, encodings, order, (cells, separator, encoding, columns) => {
        const table = (by: readonly number[], between: string): string =>
          [COLUMNS, ...cells]
            .map((one) => by.map((i) => `"${(one[i] ?? '').replaceAll('"', '""')}"`).join(between))
            .join('\n');
        const plain = readLog([{ file: 'a.csv', content: table([0, 1, 2, 3, 4], ',') }]);
        const mark = encoding === 'utf16le' ? '\ufeff' : '';
        const content = Buffer.from(mark + table(columns, separator), encoding);
        const other = readLog([{ file: 'a.csv', content }]);
        expect(other.records).toEqual(plain.records);
        expect(other.counter).toEqual(plain.counter);
        expect([other.rows, other.used]).toEqual([plain.rows, plain.used]);
        lawful(other);
      }),
      OPTIONS,
    );
  });

  it('of several files loses none either', () => {
    fc.assert(
      fc.property(fc.array(fc.array(row, { maxLength: 12 }), { minLength: 2, maxLength: 4 }), (files) => {
        const sources = files.map((rows, i) => ({
          file: `log${i}.csv`,
          content: `${i % 2 === 0 ? '# module: a\n' : ''}time,module,what,cause,count,level,lasted,note\n${rows.join('\n')}`,
        }));
        lawful(readLog(sources));
      }),
      OPTIONS,
    );
  });
});

describe('a file of anything', () => {
  it('of bytes does no harm', () => {
    const columns = new TextEncoder().encode('time,what,count\n');
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), fc.boolean(), (bytes, named) => {
        lawful(
          readLog([{ file: 'bytes.csv', content: named ? new Uint8Array([...columns, ...bytes]) : bytes }]),
        );
      }),
      OPTIONS,
    );
  });

  it('with a cell or a comment of a million letters is read at once', () => {
    const long = 'a ,"'.replaceAll(/[,"]/g, ' ').repeat(250_000);
    const content = `# ${long}x\n# module: ${long}\ntime,what,cause,count,level,lasted\n${long},stop\n0,${long}x\n0,stop,${long},${long},${long},${long}`;
    const from = performance.now();
    lawful(readLog([{ file: 'long.csv', content }]), 3);
    // Trying every way to cut it would take hours.
    expect(performance.now() - from).toBeLessThan(20_000);
  });

  it('of text does no harm', () => {
    const piece = fc.oneof(
      fc.string({ maxLength: 5 }),
      fc.string({ unit: 'grapheme', maxLength: 3 }),
      fc.constantFrom('"', ',', ';', '\n', '\r', '#', 'stop', '10:00', '=', "'", '\0'),
    );
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 40 }), (pieces) => {
        lawful(readLog([{ file: 'text.csv', content: `what;time;cause\n${pieces.join('')}` }]));
      }),
      OPTIONS,
    );
  });
});
