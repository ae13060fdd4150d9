import { decodeLog } from './decodeLog.js';
import { duplicatesAmong } from './duplicates.js';
import { joinFiles } from './joinFiles.js';
import type { LogProblem } from './logProblem.js';
import { LogTables } from './logTables.js';
import type { ModuleRecord, Stretch } from './moduleRecord.js';
import { ProblemList } from './problemList.js';
import type { KnownModule } from './knownModule.js';
import type { LapSeen, MindersSeen } from './showSeen.js';
import type { CounterReading } from './readings.js';
import { type FileRows, readRows } from './readRows.js';
import { type WrittenName, writtenNames } from './writtenNames.js';

/** One file of a log. */
export interface LogSource {
  /** Its name, for messages. */
  readonly file: string;
  readonly content: Uint8Array | string;
}

/** How logs are read. */
export interface ReadLogOptions {
  /** The modules of the scenario that the logs are of; names that are none of them are told. @default any name may be */
  readonly modules?: readonly KnownModule[];
}

/** How one file was read. */
export interface LogFileRead {
  readonly file: string;
  readonly where: 'bench' | 'show';
  readonly encoding: string;
  readonly separator: string;
  readonly times: 'clock' | 'elapsed';
  readonly rows: number;
}

/** What logs say, cleaned. All times are seconds on one axis; logs by the clock begin it with their first row. */
export interface ReadLog {
  /** Bench logs first; a module that is in both kinds of log has a record of each. */
  readonly records: readonly ModuleRecord[];
  readonly counter: readonly CounterReading[];
  readonly laps: readonly LapSeen[];
  readonly shifts: readonly MindersSeen[];
  /** When the loop of a show was watched, breaks left out. */
  readonly sessions: readonly Stretch[];
  /** Seconds after midnight at time 0; absent when all times are since the start. */
  readonly clockSeconds?: number;
  /** Date of time 0, such as `2026-05-02`, where dates were written. */
  readonly date?: string;
  readonly files: readonly LogFileRead[];
  /** Names of modules and causes in rows that count, each with the first row that has it, in time order. */
  readonly written: readonly WrittenName[];
  /** File by file and line by line. */
  readonly problems: readonly LogProblem[];
  /** All rows of all files: lines that are not blank, no comment and not the names of the columns. */
  readonly rows: number;
  /** Those that count. Every other row is left out by one of the problems. */
  readonly used: number;
}

/**
 * Reads logs of the bench and of shows and joins them in time order. Nothing is dropped in silence: every row either counts
 * or stands among the problems.
 *
 * @example
 * const content = '# module: old-mill\ntime,what,cause,count\n0,start\n2.5,batch,,3\n5.1,batch,,3\n7,stop,jam\n40,cleared\n60,end\n';
 * const { records, rows, used } = readLog([{ file: 'bench.csv', content }]);
 * [records[0].batches.length, records[0].stops, rows, used] // => [2, [{ cause: 'jam', from: 7, cleared: 40 }], 6, 6]
 */
export function readLog(sources: readonly LogSource[], options: ReadLogOptions = {}): ReadLog {
  const { modules = [] } = options;
  const decoded = sources.map(({ content }) =>
    typeof content === 'string'
      ? ({ text: content, encoding: 'UTF-8', guessed: false } as const)
      : decodeLog(content),
  );
  const texts = decoded.map(({ text }, i) => ({ file: sources[i]?.file ?? '', text }));
  const problems = new ProblemList(texts);
  const files: FileRows[] = [];
  for (const [i, { text, encoding, guessed }] of decoded.entries()) {
    if (guessed) tellEncoding(i, encoding, problems);
    const same = texts.findIndex((other) => other.text === text);
    const copied = same < i ? files[same] : undefined;
    files.push(
      copied === undefined
        ? readRows(text, i, problems, modules)
        : copyOf(copied, i, texts[same]?.file ?? '', problems),
    );
  }
  const joined = joinFiles(files, problems);
  duplicatesAmong(joined.rows, files, problems);
  const tables = new LogTables(files, joined, modules, problems);
  for (const row of joined.rows) {
    const file = files[row.file];
    if (row.fate === 'left out' || file === undefined) continue;
    const module = row.module === '' ? (file.head['module'] ?? '') : row.module;
    tables.of(file.where, module).take(row, module);
  }
  const finished = tables.all().map((table) => ({ table, ...table.finish() }));
  const { clockSeconds, date } = joined;
  return {
    records: finished.flatMap(({ records }) => records),
    counter: finished.flatMap(({ counter }) => counter),
    laps: finished.flatMap(({ table }) => table.laps),
    shifts: finished.flatMap(({ table }) => table.shifts),
    sessions:
      tables.show === undefined ? [] : (finished.find(({ table }) => table === tables.show)?.sessions ?? []),
    ...(clockSeconds !== undefined && { clockSeconds }),
    ...(date !== undefined && { date: new Date(date * 86_400_000).toISOString().slice(0, 10) }),
    files: files.map(({ where, times, separator, total }, i) => ({
      file: sources[i]?.file ?? '',
      where,
      encoding: decoded[i]?.encoding ?? '',
      separator,
      times,
      rows: total,
    })),
    written: writtenNames(joined.rows, files, sources),
    problems: problems.sorted(),
    rows: files.reduce((sum, { total }) => sum + total, 0),
    used: joined.rows.reduce((sum, { fate }) => sum + (fate === 'used' ? 1 : 0), 0),
  };
}

function tellEncoding(file: number, encoding: string, problems: ProblemList): void {
  problems.look(
    { file, found: '' },
    {
      code: 'unreadable',
      rule: `it is not in UTF-8; read as ${encoding}`,
      hint: 'If letters such as \u00fc look wrong, save it as UTF-8.',
    },
  );
}

/** A file that is the same as another counts once. */
function copyOf(file: FileRows, i: number, name: string, problems: ProblemList): FileRows {
  if (file.total > 0)
    problems.leaveOut(
      { file: i, found: '' },
      { code: 'duplicate', rule: `it is the same as ${name}` },
      file.total,
    );
  return { ...file, rows: [] };
}
