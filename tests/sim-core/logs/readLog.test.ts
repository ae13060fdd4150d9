import { describeLogProblem, type KnownModule, type ReadLog, readLog } from '@lapwright/sim-core';
import { describe, expect, it } from 'vitest';

/*
 * What each log says was worked out by hand from the rows as written.
 */

function read(content: string | Uint8Array, modules?: readonly KnownModule[]): ReadLog {
  return readLog([{ file: 'log.csv', content }], modules === undefined ? {} : { modules });
}

function told({ problems }: ReadLog): string[] {
  return problems.map(describeLogProblem);
}

const BENCH = '# module: old-mill\n';
const SHOW = 'time,module,what,cause,count,level,lasted\n';

/** Problems of a log of a show with these rows, each as line, severity and kind. */
function faults(rows: readonly string[], modules?: readonly KnownModule[]): string[] {
  const log = read(SHOW + rows.join('\n'), modules);
  const out = log.problems.reduce((sum, problem) => sum + problem.rows, 0);
  expect(log.used + out).toBe(log.rows);
  expect(log.rows).toBe(rows.length);
  return log.problems.map(({ line, severity, code }) => `${line} ${severity} ${code}`);
}

describe('a log of the bench', () => {
  it('gives batches, stops and watched time', () => {
    const log = read(
      `${BENCH}# builder: Perrin\n# design: step-lift\n# basket: 150\n# batch: 3\ntime,what,cause,count,level\n0:00,start\n0:02.5,batch,,,75\n0:05,batch,,2,80 %\n1:10,stop,jam,1,0.6\n1:50,cleared\n2:00,break\n7:00,resume\n1:00:00,end\n`,
    );
    expect(told(log)).toEqual([]);
    expect(log.records).toEqual([
      {
        module: 'old-mill',
        builder: 'Perrin',
        design: 'step-lift',
        where: 'bench',
        watched: [
          { from: 0, to: 120 },
          { from: 420, to: 3600 },
        ],
        batches: [
          { at: 2.5, balls: 3, level: 0.5 },
          { at: 5, balls: 2, level: 0.8 },
        ],
        stops: [{ cause: 'jam', from: 70, cleared: 110, level: 0.6, dropped: 1 }],
        spills: [],
      },
    ]);
  });

  it.each([
    ['semicolons and decimal commas', `${BENCH}what;time;count\nstart;0\nbatch;2,5;3\nend;9,25`],
    ['tabs, CR and an odd order', `${BENCH}COUNT\tTime\twhat\r\t0\tstart\r3\t2.5\tBatch\r\t9.25\tend\r`],
    [
      'a byte order mark, CR LF, blank lines',
      `\ufeff${BENCH}time,what,balls\r\n\r\n0,start\r\n2.5,batch,3\r\n,,\r\n9.25,end\r\n`,
    ],
    [
      'quotes everywhere',
      `"# module: old-mill"\n"time","what","count"\n"0","start",""\n"2.5","batch","3"\n"9.25","end",""`,
    ],
    ['apostrophes of a spreadsheet', `${BENCH}time,what,count\n'0,start\n'2.5,batch,'3\n'9.25,end`],
    ['units', `${BENCH}time,what,count\n0 s,start\n2500 ms,batch,3 balls\n9.25 s,end`],
    [
      'what a spreadsheet adds to comments',
      `${BENCH.trim()};;\nsep=;\ntime;what;count\n0;start;\n2,5;batch;3\n9,25;end;`,
    ],
  ])('reads %s', (_, content) => {
    const log = read(content);
    expect(told(log)).toEqual([]);
    expect(log.records[0]?.module).toBe('old-mill');
    expect(log.records[0]?.batches).toEqual([{ at: 2.5, balls: 3 }]);
    expect(log.records[0]?.watched).toEqual([{ from: 0, to: 9.25 }]);
    expect([log.rows, log.used]).toEqual([3, 3]);
  });

  it.each([
    ['UTF-16, little end first', 'utf16le', [0xff, 0xfe]],
    ['UTF-16 without a mark', 'utf16le', []],
    ['UTF-8', 'utf8', []],
    ['Latin-1', 'latin1', []],
  ] as const)('reads %s', (name, encoding, mark) => {
    const text = '# module: m\u00fchle\ntime,what\n0,start\n5,end\n';
    const log = read(Buffer.concat([Buffer.from(mark), Buffer.from(text, encoding)]));
    expect(log.records[0]?.module).toBe('m\u00fchle');
    const guessed = name === 'Latin-1' || name.endsWith('without a mark');
    expect(told(log)).toEqual(
      guessed ? [expect.stringMatching(/^log\.csv: kept, but look: it is not in UTF-8/)] : [],
    );
  });

  it('tells impossible batches', () => {
    const log = read(
      `${BENCH}time,what,count\n0,start\n1,batch,3\n2,batch,-3\n3,batch,2.5\n4,batch,three\n5,batch,20000\n6,batch\n7,batch,3\n7,batch,3\n8,batch,33\n9,batch,=1+1\n10,end`,
    );
    expect(log.problems.map(({ line, severity, code }) => `${line} ${severity} ${code}`)).toEqual([
      '5 left out impossible',
      '6 left out impossible',
      '7 left out impossible',
      '8 left out impossible',
      '9 left out missing',
      '11 left out duplicate',
      '12 kept, but look impossible',
      '13 left out formula',
    ]);
    expect(log.records[0]?.batches.map(({ balls }) => balls)).toEqual([3, 3, 33]);
    expect([log.rows, log.used]).toEqual([12, 5]);
  });

  it('tells of days that say nothing', () => {
    const log = read(`${BENCH}# day: 2\ntime,day,what\n0,,start\n9,3,end`);
    expect(log.problems.map(({ line, severity, code }) => [line, severity, code])).toEqual([
      [undefined, 'kept, but look', 'not_understood'],
      [5, 'kept, but look', 'not_understood'],
    ]);
    expect(log.used).toBe(2);
  });

  it('takes a stop as cleared when a batch comes out', () => {
    const log = read(`${BENCH}time,what,count\n0,start\n10,stop\n50,batch,3\n60,end`);
    expect(log.records[0]?.stops).toEqual([{ cause: 'stop', from: 10, cleared: 50 }]);
    expect(told(log)).toEqual([
      'log.csv:5: kept, but look: found "50,batch,3": a batch comes out, but the stop of line 4 was not cleared; taken as cleared now.',
    ]);
  });
});

describe('a log of a show', () => {
  it('gives readings, laps, shifts and who was off the loop', () => {
    const log = read(
      `${SHOW}10:00,,start\n10:00,,shift,,2\n10:05,a,stop,jam\n10:06:30,A,cleared\n10:10,b,stop,,,,1:20\n10:30,,counter,,1500\n10:40,,lap,red,,,4:10\n11:00,a,pulled\n11:30,a,back\n11:31,b,spill,,12\n12:00,,counter,,5000\n12:30,,reset\n12:40,,counter,,90\n13:00,,end\n`,
    );
    expect(told(log)).toEqual([]);
    expect(log.clockSeconds).toBe(36000);
    expect(log.shifts).toEqual([{ at: 0, minders: 2 }]);
    expect(log.laps).toEqual([{ at: 2400, seconds: 250, ball: 'red' }]);
    expect(log.counter.map(({ reading, run }) => [reading, run])).toEqual([
      [1500, 0],
      [5000, 0],
      [0, 1],
      [90, 1],
    ]);
    const [a, b] = log.records;
    expect(a?.stops).toEqual([{ cause: 'jam', from: 300, cleared: 390 }]);
    expect(a?.watched).toEqual([
      { from: 0, to: 3600 },
      { from: 5400, to: 10800 },
    ]);
    expect(b?.stops).toEqual([{ cause: 'stop', from: 600, cleared: 680 }]);
    expect(b?.spills).toEqual([{ at: 5460, balls: 12 }]);
  });

  it('goes past midnight and over days', () => {
    const night = read(`${SHOW}22:00,,start\n23:50,a,stop\n0:10,a,cleared\n1:00,,end`);
    expect(night.records[0]?.stops).toEqual([{ cause: 'stop', from: 6600, cleared: 7800 }]);
    expect(night.sessions).toEqual([{ from: 0, to: 10800 }]);
    const dates = read(`${SHOW}2026-05-02 10:00,,start\n12:00,,end\n2026-05-04 9:00,,start\n10:00,,end`);
    expect(dates.date).toBe('2026-05-02');
    expect(dates.sessions).toEqual([
      { from: 0, to: 7200 },
      { from: 2 * 86400 - 3600, to: 2 * 86400 },
    ]);
    const numbers = read(`day,${SHOW}1,10:00,,start\n,12:00,,end\n2,10:00,,start\n,11:00,,end`);
    expect(numbers.sessions).toEqual([
      { from: 0, to: 7200 },
      { from: 86400, to: 90000 },
    ]);
    for (const log of [night, dates, numbers]) expect(told(log)).toEqual([]);
  });

  it('ends a day without an end at its last row, and says so', () => {
    const log = read(`${SHOW}10:00,,start\n12:00,a,spill,,3\nday 2 10:00,a,spill,,3\n11:00,,end`);
    expect(log.sessions).toEqual([
      { from: 0, to: 7200 },
      { from: 86400, to: 90000 },
    ]);
    expect(log.problems.map(({ line, code }) => [line, code])).toEqual([[3, 'never_ended']]);
  });

  it('keeps modules that never stopped when it knows of them', () => {
    const modules = [{ id: 'lantern-stairs', basket: 100 }, { id: 'b' }, { id: 'stopgap', spare: true }];
    const rows = '10:00,,start\n10:01,Lantern Stairs,stop,,,30\n10:02,stopgap,back\n11:00,,end';
    const log = read(SHOW + rows, modules);
    expect(log.records.map(({ module, watched }) => [module, watched])).toEqual([
      ['lantern-stairs', [{ from: 0, to: 3600 }]],
      ['b', [{ from: 0, to: 3600 }]],
      ['stopgap', [{ from: 120, to: 3600 }]],
    ]);
    expect(log.records[0]?.stops).toEqual([{ cause: 'stop', from: 60, cleared: null, level: 0.3 }]);
    const listed = read(`# modules: lantern-stairs, b\n# spares: stopgap\n${SHOW}${rows}`);
    expect(listed.records.map(({ watched }) => watched)).toEqual(log.records.map(({ watched }) => watched));
  });

  it('counts nothing of a stop that goes on over a break, but what was seen', () => {
    const log = read(
      `${SHOW}10:00,,start\n10:50,a,stop\n11:00,,break\n12:00,,resume\n12:10,a,cleared\n13:00,,end`,
    );
    expect(log.records[0]?.stops).toEqual([{ cause: 'stop', from: 3000, cleared: null }]);
    expect(log.records[0]?.watched).toEqual([
      { from: 0, to: 3600 },
      { from: 7800, to: 10800 },
    ]);
    expect(log.problems.map(({ line, code }) => [line, code])).toEqual([[3, 'never_ended']]);
  });

  it('takes a stop of the evening as cleared overnight, unless it is cleared in the morning', () => {
    const log = read(
      `${SHOW}10:00,,start\n16:50,a,stop\n16:50,b,stop\n17:00,,end\nday 2 10:00,,start\n10:05,a,cleared\n11:00,b,stop\n11:01,b,cleared\n12:00,,end`,
    );
    const night = { from: 0, to: 25200 };
    expect(log.records.map(({ watched }) => watched)).toEqual([
      [night, { from: 86700, to: 93600 }],
      [night, { from: 86400, to: 93600 }],
    ]);
    expect(log.records.map(({ stops }) => stops.map(({ cleared }) => cleared))).toEqual([
      [null],
      [null, 90060],
    ]);
    expect(log.problems.map(({ line, severity }) => [line, severity])).toEqual([
      [3, 'kept, but look'],
      [4, 'kept, but look'],
    ]);
  });

  it.each<[string, readonly string[], readonly string[]]>([
    [
      'overlapping stops',
      ['10:00,a,stop', '10:01,a,stop', '10:02,a,cleared', '10:03,,end'],
      ['3 left out overlap'],
    ],
    [
      'stops that overlap by what they lasted',
      ['10:00,a,stop,,,,5:00', '10:04,a,stop', '10:09,,end'],
      ['3 left out overlap'],
    ],
    ['clearing without a stop', ['10:00,a,cleared', '10:01,,end'], ['2 left out without_beginning']],
    ['a stop never cleared', ['10:00,a,stop', '10:09,,end'], ['2 kept, but look never_ended']],
    ['a log without an end', ['10:00,,start', '10:01,a,spill,,1'], ['3 kept, but look never_ended']],
    [
      'a counter that runs back',
      [
        '10:00,,counter,,100',
        '10:01,,counter,,1500',
        '10:02,,counter,,180',
        '10:03,,counter,,260',
        '10:04,,end',
      ],
      ['3 left out counter_runs_back'],
    ],
    [
      'times that run back',
      ['10:00,,start', '11:00,a,spill,,1', '10:30,a,spill,,1', '12:00,,end'],
      ['4 left out time_runs_back'],
    ],
    [
      'a time far ahead of those after it',
      ['10:00,,start', '19:05,a,spill,,1', '10:10,a,spill,,1', '10:20,,end'],
      ['3 left out time_runs_back'],
    ],
    [
      'a row a little late',
      ['10:00,,start', '10:20,a,spill,,1', '10:15,b,spill,,1', '12:00,,end'],
      ['4 kept, but look time_runs_back'],
    ],
    ['an unknown word', ['10:00,,start', '10:01,a,stoped', '10:02,,end'], ['3 left out not_understood']],
    ['pulled twice', ['10:00,a,pulled', '10:01,a,pulled', '10:09,,end'], ['3 left out off_the_loop']],
    [
      'back without pulled',
      ['10:00,a,spill,,1', '10:01,a,back', '10:09,,end'],
      ['3 left out without_beginning'],
    ],
    [
      'a stop of a pulled module',
      ['10:00,a,pulled', '10:01,a,stop', '10:09,,end'],
      ['3 left out off_the_loop'],
    ],
    ['rows after the end', ['10:00,,end', '10:01,a,stop'], ['3 left out not_watched']],
    ['rows before the start', ['10:00,a,stop', '10:01,,start', '10:02,,end'], ['2 left out not_watched']],
    [
      'rows in a break',
      ['10:00,,start', '10:01,,break', '10:02,a,stop', '10:03,,resume', '10:04,,end'],
      ['4 left out not_watched'],
    ],
    [
      'a break in a break',
      ['10:00,,start', '10:01,,break', '10:02,,break', '10:03,,resume', '10:04,,end'],
      ['4 left out without_beginning'],
    ],
    [
      'an end without a start',
      ['10:00,,start', '10:01,,end', '10:02,,end'],
      ['4 left out without_beginning'],
    ],
    ['a stop without a module', ['10:00,,stop', '10:02,,end'], ['2 left out missing']],
    ['a lap without its time', ['10:00,,lap', '10:02,,end'], ['2 left out missing']],
    [
      'a time that is none',
      ['10:00,,start', '25:00,a,stop', '10:70,a,stop', 'noon,a,stop', '10.30,a,stop', '11:00,,end'],
      [
        '3 left out not_understood',
        '4 left out not_understood',
        '5 left out not_understood',
        '6 left out not_understood',
      ],
    ],
    ['a formula as a cause', ['10:00,a,stop,=1+1,,,9', '10:02,,end'], ['2 kept, but look formula']],
    ['a formula as a word', ['10:00,a,=A1', '10:02,,end'], ['2 left out formula']],
    [
      'what a spreadsheet could not reckon',
      ['10:00,,start', '#REF!,a,stop', '10:02,,end'],
      ['3 left out formula'],
    ],
    ['a level that is none', ['10:00,a,stop,,,full,9', '10:02,,end'], ['2 kept, but look not_understood']],
    [
      'a quote mark that is not closed',
      ['10:00,,start', '10:01,a,"stop', '10:02,b,"stop"', '10:03,b,cleared', '10:04,,end'],
      ['3 left out quotes'],
    ],
    ['a quote mark in the middle', ['10:00,,start', '10:01,a,"sto"p', '10:02,,end'], ['3 left out quotes']],
  ])('tells %s', (_, rows, expected) => {
    expect(faults(rows)).toEqual(expected);
  });

  it('names the nearest module', () => {
    const log = read(`${SHOW}10:00,lantern-stair,stop\n10:01,,end`, [{ id: 'lantern-stairs' }]);
    expect(told(log)).toEqual([
      'log.csv:2: left out: found "10:00,lantern-stair,stop": there is no module "lantern-stair". Did you mean lantern-stairs?',
    ]);
  });

  it('keeps a note with line breaks together', () => {
    const log = read(`time,module,what,note\n10:00,a,stop,"first\nsecond"\n10:01,a,cleared\n10:02,,end`);
    expect([log.rows, log.used]).toEqual([3, 3]);
    expect(log.problems.map(({ line, severity, code }) => [line, severity, code])).toEqual([
      [2, 'kept, but look', 'quotes'],
    ]);
  });

  it('refuses a file without columns, and says how many rows that costs', () => {
    const log = read('10:00,a,stop\n10:01,a,cleared\n');
    expect([log.rows, log.used]).toEqual([2, 0]);
    expect(log.problems.map(({ line, rows, code }) => [line, rows, code])).toEqual([[1, 2, 'unreadable']]);
  });
});

describe('several files', () => {
  const one = `${SHOW}10:00,,start\n10:10,a,stop\n10:11,a,cleared\n12:00,,end`;
  const other = `${SHOW}10:00,,start\n10:10,a,stop\n10:30,b,stop,,,,30\n12:05,,end`;

  it('are joined in time order, and what stands in both counts once', () => {
    const log = readLog([
      { file: 'one.csv', content: one },
      { file: 'other.csv', content: other },
    ]);
    expect(told(log)).toEqual([
      'other.csv:3: left out: found "10:10,a,stop": the same stands in line 3 of another file.',
    ]);
    expect(log.sessions).toEqual([{ from: 0, to: 7500 }]);
    expect(log.records.map(({ module, stops }) => [module, stops.length])).toEqual([
      ['a', 1],
      ['b', 1],
    ]);
    expect([log.rows, log.used]).toEqual([8, 7]);
  });

  it('that are the same count once', () => {
    const log = readLog([
      { file: 'one.csv', content: one },
      { file: 'copy.csv', content: one },
    ]);
    expect(told(log)).toEqual(['copy.csv: left out (4 rows): it is the same as one.csv.']);
    expect([log.rows, log.used]).toEqual([8, 4]);
  });

  it('of one module on the bench at the same hour are of two days', () => {
    const bench = (balls: number): string =>
      `${BENCH}time,what,count\n10:00,start\n10:01,batch,${balls}\n11:00,end`;
    const log = readLog([
      { file: 'monday.csv', content: bench(2) },
      { file: 'friday.csv', content: bench(3) },
    ]);
    expect(log.records[0]?.watched).toEqual([
      { from: 0, to: 3600 },
      { from: 86400, to: 90000 },
    ]);
    expect(log.problems.map(({ file, severity, code }) => [file, severity, code])).toEqual([
      ['friday.csv', 'kept, but look', 'overlap'],
    ]);
  });

  it('with times since the start come one after the other', () => {
    const bench = (balls: number): string => `${BENCH}time,what,count\n0,start\n60,batch,${balls}\n3600,end`;
    const log = readLog([
      { file: 'a.csv', content: bench(2) },
      { file: 'b.csv', content: bench(3) },
    ]);
    expect(told(log)).toEqual([]);
    const [{ watched, batches } = { watched: [], batches: [] }] = log.records;
    expect(watched.map(({ from, to }) => to - from)).toEqual([3600, 3600]);
    expect(watched.map(({ from }, i) => (batches[i]?.at ?? NaN) - from)).toEqual([60, 60]);
  });
});
