/** A column of a log. */
export interface LogColumn {
  readonly name: string;
  /** Other names it may have in a file. */
  readonly also: readonly string[];
  /** What is written in it, for the help. */
  readonly doc: string;
}

/**
 * The columns of a log, in the order in which templates have them. In a file they may stand in any order; those that
 * nothing is written in may be left out, but for `time` and `what`.
 */
export const LOG_COLUMNS: readonly LogColumn[] = [
  {
    name: 'time',
    also: ['clock'],
    doc: 'When it happened. By the clock: 10:05, 10:05:03.5, "day 2 10:05", 2026-05-02 10:05. Or since the start: 12.5 (seconds), 0:12 (minutes:seconds), 1:02:03, 3 min 20 s. Not both in one file.',
  },
  {
    name: 'day',
    also: ['date'],
    doc: 'Which day: 2, or 2026-05-02. Empty means the day of the row before; past midnight the day changes by itself.',
  },
  {
    name: 'module',
    also: [],
    doc: 'Name of the module as in the scenario. Empty where the head of the file says it, and for what concerns the whole loop.',
  },
  { name: 'what', also: [], doc: 'What happened, one of the words below.' },
  {
    name: 'cause',
    also: [],
    doc: 'Why it stopped, in a word or two of your own, always the same for the same cause.',
  },
  {
    name: 'count',
    also: ['balls', 'number'],
    doc: 'How many: balls of a batch, balls that fell, the reading of the counter, minders on duty.',
  },
  {
    name: 'level',
    also: [],
    doc: 'How full the basket stood: 70 % or 0.7; balls too, when the head of the file says how many the basket holds.',
  },
  {
    name: 'lasted',
    also: [],
    doc: 'How long: the time of a lap; how long a stop took, instead of a row "cleared". 40 (seconds), 1:20 (minutes:seconds), 2 min.',
  },
  { name: 'note', also: ['notes', 'remark'], doc: 'Anything. It is not read.' },
];

/** Where the columns of a file are, by name; what its head says that is no column. */
export interface FoundColumns {
  /** Index by name of the column. */
  readonly at: Readonly<Partial<Record<string, number>>>;
  readonly unknown: readonly string[];
  readonly twice: readonly string[];
}

/**
 * Finds the known columns in the first row of a file.
 *
 * @example
 * findColumns(['What', ' Time ', 'colour', 'balls', 'count']) // => { at: { what: 0, time: 1, count: 3 }, unknown: ['colour'], twice: ['count'] }
 */
export function findColumns(cells: readonly string[]): FoundColumns {
  const at: Partial<Record<string, number>> = {};
  const unknown: string[] = [];
  const twice: string[] = [];
  for (const [i, cell] of cells.entries()) {
    const written = cell.trim().replace(/^['"]|["']$/g, '');
    if (written === '') continue;
    const plain = written.toLowerCase();
    const column = LOG_COLUMNS.find(({ name, also }) => name === plain || also.includes(plain));
    if (column === undefined) unknown.push(written);
    else if (at[column.name] !== undefined) twice.push(written);
    else at[column.name] = i;
  }
  return { at, unknown, twice };
}
