import { csvTable } from './csv.js';

/** A row of a log as a person would keep it. */
export interface PersonRow {
  readonly time: string | number;
  readonly day?: number;
  readonly module?: string;
  readonly what: string;
  readonly cause?: string;
  readonly count?: number;
  readonly level?: string | number;
  readonly lasted?: string | number;
  readonly note?: string;
}

const COLUMNS = ['time', 'day', 'module', 'what', 'cause', 'count', 'level', 'lasted', 'note'] as const;

/**
 * A log as text: the lines of its head, then the rows; columns in which nothing stands are left out.
 *
 * @param head by key, in the order in which they are written
 * @example
 * personLog({ module: 'old-mill' }, [{ time: 0, what: 'start' }, { time: 2.5, what: 'batch', count: 3 }]) // => '# module: old-mill\r\ntime,what,count\r\n0,start,\r\n2.5,batch,3\r\n'
 */
export function personLog(
  head: Readonly<Record<string, string | number | undefined>>,
  rows: readonly PersonRow[],
): string {
  const lines = Object.entries(head).flatMap(([key, value]) =>
    value === undefined || value === '' ? [] : [`# ${key}: ${String(value).replaceAll(/[\r\n]+/g, ' ')}\r\n`],
  );
  const columns = COLUMNS.filter(
    (column) => column === 'time' || column === 'what' || rows.some((row) => row[column] !== undefined),
  );
  return (
    lines.join('') +
    csvTable(
      columns,
      rows.map((row) => columns.map((column) => row[column])),
    )
  );
}
