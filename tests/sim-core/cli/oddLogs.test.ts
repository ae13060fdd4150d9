import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { lapwright } from './runLapwright.js';

const folder = mkdtempSync(join(tmpdir(), 'lapwright-odd-logs-'));
afterAll(() => rmSync(folder, { recursive: true }));
const put = (name: string, text: string): string => {
  writeFileSync(join(folder, name), text);
  return join(folder, name);
};
const flat = (text: string): string => text.replaceAll(/\s+/g, ' ');
const show = (name: string, ...rows: readonly string[]): string =>
  put(name, ['time,module,what,cause,count,lasted', ...rows, ''].join('\n'));

const LIFT = 'basket: 150, cycle: 0.9 s, travel: 5 s';
const file = (jam: string, extra = ''): string =>
  `name: x\nshow: { opens: 10:00, lasts: 20 min }\nfeed: { steady: 1 bps }\ncrew: { minders: 1, notice: 10 s, walk: 10 s }\ncounter: two\nmodules:\n  lift: { ${LIFT}, stops: { jam: { ${jam}, crew: { clear: 20 s } } }${extra} }\n  two: { ${LIFT} }\nhouse_rules: { spills_per_hour: 150 }\n`;
const OFTEN = put('often.yaml', file('running: { exponential: { mean: 5 min } }'));
const SELDOM = put('seldom.yaml', file('running: { exponential: { mean: 1000 h } }'));
const few = ['-n', '39', '--workers', '1'];

describe('match', () => {
  it('compares nothing that lies outside the hours of the show', async () => {
    // Nothing was wrong between 10:00 and 10:20; before and after, what no show of the file can have in 20 min.
    const log = show(
      'long.csv',
      '09:00,,start,,,',
      '09:01,,counter,,0,',
      ...Array.from({ length: 20 }, (_, i) => `09:${String(10 + 2 * i)},lift,stop,jam,,30 s`),
      '10:05,,counter,,90000,',
      '10:25,lift,spill,,500,',
      '10:30,,end,,,',
    );
    const { code, stdout } = await lapwright('match', SELDOM, log, ...few);
    expect([code, flat(stdout)]).toEqual([0, expect.stringContaining('The file matches')]);
    // 20 stops, the reading before the opening, 1 spill; the other reading has none before it to be compared with.
    expect(flat(stdout)).toContain('22 rows (stops, spills, counter) outside the hours of the show');
  });

  it('says so when the log is of other hours', async () => {
    const log = show('morning.csv', '08:00,,start,,,', '08:30,lift,stop,jam,,30 s', '09:00,,end,,,');
    const { code, stdout } = await lapwright('match', OFTEN, log, ...few);
    expect([code, flat(stdout)]).toEqual([
      0,
      expect.stringContaining('nobody watched within the hours of the show'),
    ]);
  });

  it('takes a clearing of no time for one that no show of the file has', async () => {
    // Noticing and walking take 20 s, clearing 20 s: never 0 s.
    const log = show('quick.csv', '10:00,,start,,,', '10:01,lift,stop,jam,,0 s', '10:20,,end,,,');
    const { stdout } = await lapwright('match', OFTEN, log, ...few);
    expect(flat(stdout)).toContain('from a stop of lift until it ran again it took 0 s');
    expect(flat(stdout)).toContain('does not match');
  });
});

describe('fit', () => {
  it('says that a log with nothing but its columns has no row', async () => {
    const { code, stderr } = await lapwright('fit', show('bare.csv'));
    expect([code, stderr]).toEqual([
      2,
      expect.stringMatching(/a problem found\n.*bare\.csv: there is no row below the names of the columns/),
    ]);
  });
});

describe('debrief', () => {
  it('draws no rate of a module that never ran', async () => {
    const log = show('never.csv', '10:00,,start,,,', '10:00,lift,stop,jam,,', '10:20,,end,,,');
    const page = join(folder, 'never.html');
    const { code, stdout } = await lapwright('debrief', log, '--report', page);
    expect([code, flat(stdout)]).toEqual([0, expect.stringContaining('1 stop of 1 of 1 module was written')]);
    expect(readFileSync(page, 'utf8')).not.toMatch(/NaN|undefined|Infinity/);
  });
});

describe('inline', () => {
  it('says no more of such modules than twenty draws can tell', async () => {
    const counted = ', counted: { stops: { jam: { stops: 1000, in: 1 s, clears: 0 } } }';
    const hopeless = put('hopeless.yaml', file('running: { exponential: { mean: 5 min } }', counted));
    const args = ['inline', hopeless, 'lift', '-n', '20', '--workers', '1', '--draws', '20'];
    const { stdout } = await lapwright(...args);
    // None of 20 leaves up to 1 - 0.05^(1/20) = 14 % open.
    expect(flat(stdout)).toContain('With what was counted, few or none of such modules would keep');
  });
});
