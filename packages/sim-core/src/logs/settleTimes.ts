import type { LogRow } from './logRow.js';
import { FIRST_DATE } from './readTime.js';
import type { ProblemList } from './problemList.js';

const DAY = 86400;
/** A row may be written down so much too late, seconds; more is a slip of the pen. */
const LATE = 600;
/** Going back by more than this, seconds, is going past midnight. */
const MIDNIGHT = DAY / 2;

/** How the times of a file are to be settled. */
export interface TimeRules {
  readonly times: 'clock' | 'elapsed';
  /** The day of the first row, where the head says it. */
  readonly day: number | undefined;
  /** What number of a day means on the axis: that of the first date when days have dates too. */
  readonly firstDay: number;
  readonly problems: ProblemList;
}

/**
 * Puts the times of the rows of one file on one axis, seconds: days are added, midnight is passed, rows written down a
 * little late are put in their place, and those whose time cannot be are left out. Changes the rows.
 *
 * @returns the rows that are left, by rising time
 */
export function settleTimes(rows: readonly LogRow[], rules: TimeRules): LogRow[] {
  const { times, problems } = rules;
  const kept: LogRow[] = [];
  let day = onAxis(rules.day ?? 1, rules);
  let last = -Infinity;
  let inOrder = true;
  const timeOf = (row: LogRow | undefined): number => {
    if (row === undefined) return NaN;
    if (times === 'elapsed') return row.time;
    if (row.day !== undefined) return onAxis(row.day, rules) * DAY + row.time;
    const time = day * DAY + row.time;
    return time < last - MIDNIGHT ? time + DAY : time;
  };
  for (const [i, row] of rows.entries()) {
    const time = timeOf(row);
    const [next, afterNext] = [timeOf(rows[i + 1]), timeOf(rows[i + 2])];
    const isAhead = (later: number): boolean =>
      later >= last && later < time - LATE && later > time - MIDNIGHT;
    if (isAhead(next) && isAhead(afterNext)) {
      problems.refuse(row, {
        code: 'time_runs_back',
        rule: 'its time is later than that of the rows after it',
      });
      continue;
    }
    if (time < last - LATE) {
      problems.refuse(row, {
        code: 'time_runs_back',
        rule: 'its time is earlier than that of the rows before it',
        hint: times === 'clock' ? 'If it is another day, write which under "day".' : undefined,
      });
      continue;
    }
    if (time < last) {
      inOrder = false;
      problems.look(row, {
        code: 'time_runs_back',
        rule: 'it is earlier than the row before it and is put in its place',
      });
    }
    if (times === 'clock') day = Math.floor((time - row.time) / DAY + 0.5);
    last = Math.max(last, time);
    row.time = time;
    kept.push(row);
  }
  return inOrder ? kept : kept.toSorted((a, b) => a.time - b.time);
}

/** The number of a day on the axis: dates as they are, numbers counted from the first. */
function onAxis(day: number, { firstDay }: TimeRules): number {
  return day >= FIRST_DATE ? day : firstDay + day - 1;
}
