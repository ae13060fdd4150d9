import { plainName } from './nearestName.js';
import type { LogRow } from './logRow.js';
import type { ProblemList } from './problemList.js';
import type { FileRows } from './readRows.js';
import { FIRST_DATE, readDay } from './readTime.js';
import { settleTimes } from './settleTimes.js';

const DAY = 86400;
/** Seconds between the end of a log and the beginning of the next, where nothing says how long it was. */
const BETWEEN = 3600;

/** The rows of all files on one axis. */
export interface JoinedRows {
  /** By rising time; of the same time, file by file and line by line. */
  readonly rows: readonly LogRow[];
  /** Seconds after midnight at time 0; absent when all times are since the start. */
  readonly clockSeconds?: number;
  /** The date of time 0, days since 1970-01-01, where dates were written. */
  readonly date?: number;
}

/**
 * Joins the rows of several files in time order. Logs by the clock are put where their days and times say; one without a
 * day that would fall on another of the same module on the bench is taken for another day; logs since the start come one
 * after the other behind them.
 */
export function joinFiles(files: readonly FileRows[], problems: ProblemList): JoinedRows {
  const days = files.map(({ head }) => (head['day'] === undefined ? undefined : readDay(head['day'])));
  let firstDate = Infinity;
  const note = (day: number | undefined): void => {
    if (day !== undefined && day >= FIRST_DATE && day < firstDate) firstDate = day;
  };
  for (const day of days) note(day);
  for (const { rows } of files) for (const { day } of rows) note(day);
  const firstDay = firstDate === Infinity ? 1 : firstDate;
  const settled = files.map(({ rows, times }, file) =>
    settleTimes(rows, { times, day: days[file], firstDay, problems }),
  );
  const taken: Taken[] = [];
  const byClock = files.flatMap(({ times }, file) => (times === 'clock' ? [file] : []));
  for (const file of byClock) {
    const rows = settled[file] ?? [];
    if (taken.length > 0 && days[file] === undefined && rows.every(({ day }) => day === undefined))
      toAnotherDay(rows, { files, file, taken, problems });
    if (files.length > 1) taken.push(...spansOf(rows, files[file]));
  }
  const all = byClock.flatMap((file) => settled[file] ?? []);
  const begin = all.reduce((first, { time }) => Math.min(first, time), Infinity);
  let end = all.reduce((last, { time }) => Math.max(last, time), begin === Infinity ? -BETWEEN : begin);
  for (const [file, { times }] of files.entries()) {
    if (times === 'clock') continue;
    const rows = settled[file] ?? [];
    const first = rows[0]?.time ?? 0;
    // A log alone keeps its own zero, so that its times are found again.
    const shift = end + BETWEEN - (end === -BETWEEN ? 0 : Math.min(0, first));
    for (const row of rows) row.time += shift;
    end = Math.max(end, rows.at(-1)?.time ?? end);
  }
  const zero = begin === Infinity ? 0 : begin;
  const [only] = settled;
  // The rows of each file are in order already.
  const joined =
    settled.length === 1 && only !== undefined
      ? only
      : settled.flat().toSorted((a, b) => a.time - b.time || a.file - b.file);
  if (zero !== 0) for (const row of joined) row.time = Math.round((row.time - zero) * 1e6) / 1e6;
  if (begin === Infinity) return { rows: joined };
  const day = Math.floor(begin / DAY);
  return { rows: joined, clockSeconds: begin - day * DAY, ...(firstDate < Infinity && { date: day }) };
}

/** When a module was watched on the bench in one file. */
interface Taken {
  readonly module: string;
  readonly from: number;
  readonly to: number;
}

function spansOf(rows: readonly LogRow[], file: FileRows | undefined): Taken[] {
  if (file?.where !== 'bench') return [];
  const spans = new Map<string, { from: number; to: number }>();
  for (const { module, time } of rows) {
    const span = spans.get(module);
    if (span === undefined) spans.set(module, { from: time, to: time });
    else span.to = time;
  }
  return [...spans].map(([module, span]) => ({
    module: plainName(module === '' ? (file.head['module'] ?? '') : module),
    ...span,
  }));
}

/** Moves a log without a day on by whole days until it falls on none of the same module. */
function toAnotherDay(
  rows: readonly LogRow[],
  at: {
    readonly files: readonly FileRows[];
    readonly file: number;
    readonly taken: readonly Taken[];
    readonly problems: ProblemList;
  },
): void {
  const { files, file, taken, problems } = at;
  const own = spansOf(rows, files[file]);
  const overlaps = (shift: number): boolean =>
    own.some(({ module, from, to }) =>
      taken.some((other) => other.module === module && other.from < to + shift && from + shift < other.to),
    );
  let shift = 0;
  while (overlaps(shift)) shift += DAY;
  if (shift === 0) return;
  for (const row of rows) row.time += shift;
  problems.look(
    { file, found: '' },
    {
      code: 'overlap',
      rule: 'its times fall on those of another log of the same module, so it is taken for another day',
      hint: 'Write "# day: 2", or the date, at its head.',
    },
  );
}
