import { describe, expect, it } from 'vitest';
import type { ShowSpec } from '../../../packages/sim-core/src/model/spec/index.js';
import {
  type LogEntry,
  momentLabel,
  readWindow,
  windowLabel,
  worstHour,
} from '../../../packages/sim-core/src/replay/index.js';
import { clockHours } from '../../../packages/sim-core/src/replay/timeWindow.js';
import { worstOf, worstSentence } from '../../../packages/sim-core/src/replay/worstShow.js';

const H = 3600;
const day = (opens: number, hours: number): ShowSpec => ({
  seconds: hours * H,
  warmUpSeconds: 0,
  opensAtSeconds: opens * H,
});
const ONE_DAY = day(10, 6);
/** 10:00 to 13:00, 13:30 to 17:00, and on the second day 11:00 to 16:00. */
const TWO_DAYS: ShowSpec = {
  seconds: 11.5 * H,
  warmUpSeconds: 0,
  opensAtSeconds: 10 * H,
  sessions: [
    { fromSeconds: 0, clockSeconds: 0 },
    { fromSeconds: 3 * H, clockSeconds: 3.5 * H },
    { fromSeconds: 6.5 * H, clockSeconds: 25 * H },
  ],
};
const NO_CLOCK: ShowSpec = { seconds: 2 * H, warmUpSeconds: 0 };

describe('hours by the clock', () => {
  it('are full hours in which the public is there', () => {
    const hours = (show: ShowSpec): number[] => clockHours(show).map(({ from }) => from / H);
    expect(hours(ONE_DAY)).toEqual([0, 1, 2, 3, 4, 5]);
    expect(hours(day(10.5, 6))).toEqual([0.5, 1.5, 2.5, 3.5, 4.5]);
    // 13:30 to 14:00 is no full hour; 14:00 is half an hour after the second session began.
    expect(hours(TWO_DAYS)).toEqual([0, 1, 2, 3.5, 4.5, 5.5, 6.5, 7.5, 8.5, 9.5, 10.5]);
    expect(hours(NO_CLOCK)).toEqual([0, 1]);
    expect(hours(day(10.5, 1))).toEqual([]);
  });

  it('have a worst one: most balls spilled, then most time stopped, then the first', () => {
    const spill = (hours: number, balls: number): LogEntry => ({
      time: hours * H,
      kind: 'spills',
      module: 0,
      balls,
    });
    const stop = (hours: number, seconds: number): LogEntry[] => [
      { time: hours * H, kind: 'stops', module: 0, cause: 'jam', balls: 0 },
      { time: hours * H + seconds, kind: 'freed_itself', module: 0, cause: 'jam', seconds },
    ];
    const from = (log: LogEntry[], show = ONE_DAY): number | undefined => {
      const hour = worstHour(log, show);
      return hour && hour.from / H;
    };
    expect(from([spill(1.2, 5), spill(3.1, 4), spill(3.9, 4)])).toBe(3);
    expect(from([spill(1, 5), spill(3, 5), ...stop(3.5, 60)])).toBe(3);
    expect(from([spill(1, 5), spill(3, 5)])).toBe(1);
    expect(from([])).toBe(0);
    expect(from([spill(1.2, 50), spill(3, 5)], { ...ONE_DAY, warmUpSeconds: 1.5 * H })).toBe(3);
    expect(worstHour([], day(10.5, 1))).toBeUndefined();
    // A show chosen for its longest stop is told in the hour of that stop.
    const log = [spill(1, 50), ...stop(4.5, 900)];
    expect(worstHour(log, ONE_DAY, 'longest-stop')?.from).toBe(4 * H);
    expect(worstHour(log, ONE_DAY, 'stops')?.from).toBe(4 * H);
  });
});

describe('labels', () => {
  it('say the time to the second, and the day where there are several', () => {
    expect(momentLabel(ONE_DAY, 6130.9)).toBe('11:42:10');
    // 5.5 public hours are 3 in the first session and 2.5 after 13:30.
    expect(momentLabel(TWO_DAYS, 5.5 * H)).toBe('day 1 16:00:00');
    expect(momentLabel(TWO_DAYS, 7.2 * H)).toBe('day 2 11:42:00');
    expect(momentLabel(NO_CLOCK, 6130)).toBe('1:42:10');
  });

  it('do not lose a second to rounding', () => {
    expect(momentLabel(ONE_DAY, 3600 - 1e-9)).toBe('11:00:00');
    expect(momentLabel(ONE_DAY, 59.999)).toBe('10:00:59');
  });

  it('say from when to when', () => {
    expect(windowLabel(ONE_DAY, { from: H, to: 2 * H })).toBe('11:00 to 12:00');
    expect(windowLabel(ONE_DAY, { from: 30, to: 90 })).toBe('10:00:30 to 10:01:30');
    expect(windowLabel(TWO_DAYS, { from: H, to: 3 * H })).toBe('day 1 11:00 to 13:00');
    expect(windowLabel(TWO_DAYS, { from: 6 * H, to: 7.5 * H })).toBe('day 1 16:30 to day 2 12:00');
    expect(windowLabel(NO_CLOCK, { from: H, to: 2 * H })).toBe('1 h to 2 h after the opening');
    expect(windowLabel(NO_CLOCK, { from: 0, to: 2 * H })).toBe('all 2 h');
  });
});

describe('a window as people write it', () => {
  it.each<[string | undefined, string | undefined, ShowSpec, number, number]>([
    ['11:00', '12:30', ONE_DAY, 1, 2.5],
    ['11:00', undefined, ONE_DAY, 1, 6],
    [undefined, '90 min', ONE_DAY, 0, 1.5],
    ['1 h 30 min', '2 h', NO_CLOCK, 1.5, 2],
    ['day 2 11:30', '12:00', TWO_DAYS, 7, 7.5],
    ['day 1 16:00', 'day 2 12:00', TWO_DAYS, 5.5, 7.5],
    // While closed, the next opening: 13:10 is 13:30.
    ['day 1 13:10', '14:00', TWO_DAYS, 3, 3.5],
    // A show may run past midnight.
    ['23:00', '1:00', day(20, 6), 3, 5],
    [' 11:00 ', ' day 1 12:00', ONE_DAY, 1, 2],
  ])('%s to %s', (from, to, show, begins, ends) => {
    expect(readWindow({ from, to }, show)).toEqual({ from: begins * H, to: ends * H });
  });

  it.each<[string | undefined, string | undefined, ShowSpec, RegExp]>([
    ['noon', undefined, ONE_DAY, /^--from: found "noon", but this must be a time of day such as 11:30/],
    [undefined, '90', ONE_DAY, /^--to: found "90", but this must be .* 90 min/],
    ['25:00', undefined, ONE_DAY, /--from: found "25:00"/],
    ['17:00', undefined, ONE_DAY, /17:00 is not in the show: the public is there from 10:00 to 16:00/],
    ['9:59', '11:00', ONE_DAY, /9:59 is not in the show/],
    ['7 h', undefined, ONE_DAY, /7 h after the opening the show is over: it lasts 6 h/],
    ['11:00', '11:00', ONE_DAY, /between 11:00 and 11:00 there is no public time\. The public is there/],
    ['12:00', '11:00', ONE_DAY, /between 12:00 and 11:00/],
    ['16:00', undefined, ONE_DAY, /between 16:00 and the end of the show/],
    ['11:00', undefined, NO_CLOCK, /does not say when the public comes in.*such as 90 min/],
    ['11:00', undefined, TWO_DAYS, /11:00 is on every day of this show\. Write the day too: "day 1 11:00"/],
    ['day 3 11:00', undefined, TWO_DAYS, /day 3 11:00 is not in the show/],
    ['day 1 13:10', '13:20', TWO_DAYS, /there is no public time/],
    ['noon', 'dusk', ONE_DAY, /--from: found "noon".*\n--to: found "dusk"/],
  ])('refuses %s to %s', (from, to, show, message) => {
    expect(() => readWindow({ from, to }, show)).toThrow(message);
  });
});

describe('the worst show', () => {
  it('is the first of those with the highest figure, or the lowest where less is worse', () => {
    expect(worstOf([3, 8, 8, 5], 'spills')).toEqual({
      figure: 'spills',
      replication: 1,
      value: 8,
      mean: 6,
      shows: 4,
    });
    expect(worstOf([0.9, 0.7, 0.8], 'moving')?.replication).toBe(1);
    expect(worstOf([NaN, 40, NaN], 'longest-stop')).toMatchObject({ replication: 1, value: 40, mean: 40 });
    expect(worstOf([], 'spills')).toBeUndefined();
  });

  it.each([
    [[3, 8, 8, 5], 'Of shows 0 to 3, show 1 spilled most balls: 8, against 6 on average.'],
    [[0, 0], 'In each of shows 0 to 1 the same: balls spilled, 0. The first is replayed.'],
    [[NaN, NaN], 'None of shows 0 to 1 has a figure for this: balls spilled. The first is replayed.'],
    [[4], 'Only show 0 was simulated.'],
  ])('of %j is told as: %s', (values, sentence) => {
    const worst = worstOf(values, 'spills');
    expect(worst && worstSentence(worst)).toBe(sentence);
  });
});
