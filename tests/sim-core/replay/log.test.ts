import { describe, expect, it } from 'vitest';
import { csvTable } from '../../../packages/sim-core/src/replay/csv.js';
import {
  incidentCsv,
  type LogEntry,
  storyOf,
  summarySentence,
  type TimeWindow,
  windowTotals,
} from '../../../packages/sim-core/src/replay/index.js';
import { stopSpans } from '../../../packages/sim-core/src/replay/stopSpans.js';
import { holds, loop, module } from '../../build.js';

/** An hour from 11:00, three modules, one spare. */
const TABLE = loop([module('mill'), module('stair', { basket: holds(5) }), module('jug')], [4, 0, 0], {
  show: { seconds: 3600, warmUpSeconds: 0, opensAtSeconds: 11 * 3600 },
});
const WHOLE = { from: 0, to: 3600 };
const [MILL, STAIR, JUG] = [0, 1, 2];

/** 11:42:10 stair stops, a minder comes, it spills meanwhile; then it is pulled, and put back at the end. */
const LOG: readonly LogEntry[] = [
  { time: 0, kind: 'duty', module: -1, what: '2' },
  { time: 2530, kind: 'stops', module: STAIR, cause: 'tangle', balls: 2 },
  { time: 2560, kind: 'noticed', module: STAIR },
  { time: 2585, kind: 'sets_out', module: STAIR, minder: 2, what: 'clear' },
  { time: 2590, kind: 'spills', module: STAIR, balls: 5 },
  { time: 2591, kind: 'leaks', module: JUG, balls: 1 },
  { time: 2592.5, kind: 'spills', module: STAIR, balls: 7 },
  { time: 2641, kind: 'cleared', module: STAIR, cause: 'tangle', seconds: 111, minder: 2 },
  { time: 2650, kind: 'spills', module: STAIR, balls: 1 },
  { time: 2700, kind: 'stops', module: MILL, cause: 'stall', balls: 0 },
  { time: 2712.1, kind: 'freed_itself', module: MILL, cause: 'stall', seconds: 12.1 },
  { time: 2800, kind: 'stops', module: STAIR, cause: 'tangle', balls: 0 },
  { time: 2800, kind: 'wanted_out', module: STAIR },
  { time: 2830, kind: 'noticed', module: STAIR },
  { time: 2830, kind: 'sets_out', module: STAIR, minder: 1, what: 'swap it for lift' },
  { time: 2920, kind: 'pulled', module: STAIR, minder: 1, seconds: 120, what: 'lift' },
  { time: 3000, kind: 'stops', module: STAIR, cause: 'jam', balls: 0 },
  { time: 3100, kind: 'lost', module: -1, balls: 1 },
  { time: 3100, kind: 'swept', module: MILL, balls: 11 },
];
const minutes = (from: number, to: number): TimeWindow => ({ from: 60 * from, to: 60 * to });
const told = (window: TimeWindow): string[] =>
  storyOf(LOG, window, TABLE).map(({ clock, text }) => `${clock} ${text}`);

describe('the story', () => {
  it('tells what happened in plain words, and balls that spill again and again in one line', () => {
    expect(told(WHOLE)).toEqual([
      '11:00:00 2 minders on duty from now on',
      '11:42:10 stair stops (tangle); 2 balls fall out',
      '11:42:40 the stop of stair is noticed, but no minder is free',
      '11:43:05 minder 2 sets out to clear stair',
      '11:43:10 12 balls spill at stair until 11:43:12',
      '11:43:11 1 ball leaks at jug',
      '11:44:01 stair cleared after 1 min 51 s',
      '11:44:10 1 ball spills at stair',
      '11:45:00 mill stops (stall)',
      '11:45:12 mill has freed itself after 12.1 s',
      '11:46:40 stair stops (tangle)',
      '11:46:40 stair is to be pulled',
      '11:47:10 minder 1 sets out to swap stair for lift',
      '11:48:40 stair is out; lift stands in its place (stood still for 2 min)',
      '11:50:00 lift in the place of stair stops (jam)',
      '11:51:40 1 ball is not found again',
      '11:51:40 11 balls go from the floor into mill',
      '12:00:00 stair is still stopped',
    ]);
  });

  it('says what is stopped already when a window begins, and still when it ends', () => {
    expect(told(minutes(43, 43.1))).toEqual([
      '11:43:00 stair has been stopped since 11:42:10',
      '11:43:05 minder 2 sets out to clear stair',
      '11:43:06 stair is still stopped (until 11:44:01)',
    ]);
  });

  it('knows of a stand-in that was put in before the window', () => {
    expect(told(minutes(49, 51))[0]).toBe('11:50:00 lift in the place of stair stops (jam)');
  });

  it('leaves out sweeps that find nothing, but says who sweeps', () => {
    const log: LogEntry[] = [
      { time: 600, kind: 'sets_out', module: -1, minder: 1, what: 'sweep' },
      { time: 660, kind: 'swept', module: MILL, balls: 0 },
    ];
    expect(storyOf(log, WHOLE, TABLE).map(({ text }) => text)).toEqual(['minder 1 sets out to sweep']);
  });

  it('begins a new line when no ball has fallen for ten minutes', () => {
    const spill = (time: number): LogEntry => ({ time, kind: 'spills', module: STAIR, balls: 2 });
    const lines = storyOf([spill(0), spill(600), spill(1201)], WHOLE, TABLE);
    expect(lines.map(({ text }) => text)).toEqual([
      '4 balls spill at stair until 11:10:00',
      '2 balls spill at stair',
    ]);
  });

  it('keeps spills at two baskets apart, and those before the window out', () => {
    const log: LogEntry[] = [
      { time: 100, kind: 'spills', module: JUG, balls: 9 },
      { time: 200, kind: 'spills', module: JUG, balls: 1 },
      { time: 201, kind: 'spills', module: STAIR, balls: 3 },
      { time: 202, kind: 'spills', module: JUG, balls: 1 },
    ];
    expect(storyOf(log, { from: 150, to: 3600 }, TABLE).map(({ text }) => text)).toEqual([
      '2 balls spill at jug until 11:03:22',
      '3 balls spill at stair',
    ]);
  });
});

describe('the figures of a window', () => {
  it('are counted from the log', () => {
    expect(windowTotals(LOG, WHOLE, TABLE.show)).toEqual({
      stops: 4,
      spilled: 13,
      leaked: 1,
      dropped: 2,
      lost: 1,
      pulls: 1,
      longestStop: { module: STAIR, cause: 'jam', from: 3000, to: 3600, open: true },
      // 111 s until cleared, 120 s until lift is in, 600 s until closing time.
      stopped: [
        { module: STAIR, seconds: 831 },
        { module: MILL, seconds: expect.closeTo(12.1, 9) as number },
      ],
      spills: [{ module: STAIR, balls: 13, first: 2590 }],
    });
  });

  it('hold stops that reach into the window with their full length, but only the time within for the place', () => {
    const { stops, longestStop, stopped } = windowTotals(LOG, { from: 2600, to: 2620 }, TABLE.show);
    expect([stops, longestStop?.from, longestStop?.to]).toEqual([0, 2530, 2641]);
    expect(stopped).toEqual([{ module: STAIR, seconds: 20 }]);
  });

  it('belong to the window that begins with them, and at closing time to the last', () => {
    const log: LogEntry[] = [1800, 3600].map((time) => ({ time, kind: 'spills', module: JUG, balls: 1 }));
    const spilled = (from: number, to: number): number => windowTotals(log, { from, to }, TABLE.show).spilled;
    expect([spilled(0, 1800), spilled(1800, 3600)]).toEqual([0, 2]);
  });

  it('are said in one sentence; a calm hour is called so', () => {
    const sentence = (log: readonly LogEntry[], window: TimeWindow): string =>
      summarySentence(windowTotals(log, window, TABLE.show), window, TABLE);
    expect(sentence(LOG, WHOLE)).toBe(
      'In this show: 4 stops, the longest 10 min at stair and not over at closing time; 13 balls spilled; 1 leaked; 2 fell out in stops; 1 lost for good; 1 module pulled.',
    );
    expect(sentence(LOG, minutes(0, 30))).toBe('A calm stretch of 30 min: nothing stopped and no ball fell.');
    expect(sentence(LOG.slice(4, 5), minutes(40, 50))).toBe(
      'In this stretch of 10 min: no stops; 5 balls spilled; none lost for good.',
    );
    // A loop that can never move again is not calm.
    const locked: LogEntry[] = [{ time: 1200, kind: 'locked', module: -1, what: 'mill, stair' }];
    for (const window of [minutes(0, 30), minutes(30, 60)])
      expect(sentence(locked, window)).toBe(
        'In this stretch of 30 min: the loop locked at 11:20:00; no stops; no balls spilled; none lost for good.',
      );
    expect(sentence(locked, minutes(0, 10))).toMatch(/^A calm stretch/);
  });
});

describe('stops in a log', () => {
  it('end when something else stands in the place, and a swap of what runs counts too', () => {
    const log: LogEntry[] = [
      { time: 10, kind: 'stops', module: STAIR, cause: 'tangle', balls: 0 },
      { time: 20, kind: 'sets_out', module: STAIR, minder: 1, what: 'swap it for lift' },
      { time: 50, kind: 'pulled', module: STAIR, minder: 1, seconds: 40, what: 'lift' },
      { time: 90, kind: 'sets_out', module: STAIR, minder: 1, what: 'put it back' },
      { time: 95, kind: 'put_back', module: STAIR, minder: 1, seconds: 5, what: 'lift' },
    ];
    expect(stopSpans(log, 100)).toEqual([
      { module: STAIR, cause: 'tangle', from: 10, to: 50, open: false },
      { module: STAIR, from: 90, to: 95, open: false },
    ]);
  });
});

describe('the log as CSV', () => {
  const lines = incidentCsv(LOG, TABLE).split('\r\n');

  it('has a header and a line for every entry, nothing merged', () => {
    expect(lines[0]).toBe('time_s,clock,module,what,cause,by,balls,seconds,note');
    expect(lines).toHaveLength(LOG.length + 2);
    expect(lines.at(-1)).toBe('');
  });

  it.each([
    [2, '2530,11:42:10,stair,stops,tangle,,2,,'],
    [4, '2585,11:43:05,stair,sets out,,minder 2,,,clear'],
    [7, '2592.5,11:43:12,stair,spills,,,7,,'],
    [8, '2641,11:44:01,stair,cleared,tangle,minder 2,,111,'],
    [11, '2712.1,11:45:12,mill,freed itself,stall,itself,,12.1,'],
    [16, '2920,11:48:40,stair,pulled,,minder 1,,120,lift'],
    [17, '3000,11:50:00,stair,stops,jam,,0,,in its place: lift'],
    [18, '3100,11:51:40,,lost,,,1,,'],
  ])('line %i is %s', (i, line) => {
    expect(lines[i]).toBe(line);
  });

  it('puts cells in quotes after RFC 4180 and makes formulas harmless', () => {
    // RFC 4180, 2: records end with CRLF; cells with commas, quotes or line breaks in quotes, quotes doubled.
    expect(csvTable(['a'], [['x,y'], ['say "no"'], ['two\nlines'], [undefined], [-1.5]])).toBe(
      'a\r\n"x,y"\r\n"say ""no"""\r\n"two\nlines"\r\n\r\n-1.5\r\n',
    );
    const formulas = ['=1+1', '+1', '-1', '@sum', '\tx', 'fine=1'];
    expect(
      csvTable(
        ['a'],
        formulas.map((text) => [text]),
      )
        .split('\r\n')
        .slice(1, -1),
    ).toEqual(["'=1+1", "'+1", "'-1", "'@sum", "'\tx", 'fine=1']);
    const jam: LogEntry = { time: 1, kind: 'stops', module: MILL, cause: '=cmd("x")', balls: 0 };
    expect(incidentCsv([jam], TABLE)).toContain(`mill,stops,"'=cmd(""x"")",`);
  });
});
