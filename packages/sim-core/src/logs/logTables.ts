import type { JoinedRows } from './joinFiles.js';
import type { KnownModule } from './knownModule.js';
import type { LogRow } from './logRow.js';
import { LogTable } from './logTable.js';
import { plainName } from './nearestName.js';
import type { ProblemList } from './problemList.js';
import type { FileRows } from './readRows.js';

const DAY = 86400;

/** The tables that the rows of some files are about: each module on the bench by itself, and the loop of the show. */
export class LogTables {
  /** The loop of the show; absent when there is no log of one. */
  readonly show: LogTable | undefined;
  private readonly benches = new Map<string, LogTable>();
  /** The same by names as they stand in the files, because there are many rows. */
  private readonly asWritten = new Map<string, LogTable>();
  private readonly starts = new Set<string>();
  private readonly shared: {
    readonly heads: readonly KnownModule[];
    readonly dayOf: (time: number) => number;
  };

  constructor(
    files: readonly FileRows[],
    { rows, clockSeconds }: JoinedRows,
    private readonly modules: readonly KnownModule[],
    private readonly problems: ProblemList,
  ) {
    this.shared = {
      heads: files.flatMap(({ head }) => headModule(head)),
      dayOf: (time) => (clockSeconds === undefined ? 0 : Math.floor((time + clockSeconds) / DAY)),
    };
    for (const row of rows) {
      const file = files[row.file];
      if (row.what !== 'start' || file === undefined || row.fate === 'left out') continue;
      this.starts.add(
        file.where === 'show'
          ? SHOW
          : plainName(row.module === '' ? (file.head['module'] ?? '') : row.module),
      );
    }
    if (files.some(({ where }) => where === 'show'))
      this.show = new LogTable(
        {
          ...this.shared,
          where: 'show',
          known: modules.length > 0 ? modules : listed(files),
          hasStart: this.starts.has(SHOW),
          notYet: earlyEnds(rows, files),
        },
        problems,
      );
  }

  /** The table that a row of a file is about. */
  of(where: 'bench' | 'show', module: string): LogTable {
    if (where === 'show' && this.show !== undefined) return this.show;
    const known = this.asWritten.get(module);
    if (known !== undefined) return known;
    const name = plainName(module);
    let table = this.benches.get(name);
    if (table === undefined) {
      table = new LogTable(
        {
          ...this.shared,
          where: 'bench',
          own: module,
          known: this.modules,
          hasStart: this.starts.has(name),
          notYet: new Set(),
        },
        this.problems,
      );
      this.benches.set(name, table);
    }
    this.asWritten.set(module, table);
    return table;
  }

  /** All of them, those of the bench first. */
  all(): LogTable[] {
    return [...this.benches.values(), ...(this.show === undefined ? [] : [this.show])];
  }
}

/** No module can have this name: it is not plain. */
const SHOW = '_';

function headModule({ module, builder, design }: FileRows['head']): KnownModule[] {
  if (module === undefined) return [];
  return [{ id: module, ...(builder !== undefined && { builder }), ...(design !== undefined && { design }) }];
}

/** The modules that the heads of logs of a show say are in the loop, and the spares beside it. */
function listed(files: readonly FileRows[]): KnownModule[] {
  const heads = files.filter(({ where }) => where === 'show').map(({ head }) => head);
  const modules = heads.flatMap((head) => namesOf(head['modules']));
  // Without the modules of the loop the spares alone are no list of what there may be.
  if (modules.length === 0) return [];
  const spares = heads.flatMap((head) => namesOf(head['spares']));
  return [...modules.map((id) => ({ id })), ...spares.map((id) => ({ id, spare: true }))];
}

function namesOf(text = ''): string[] {
  return text.split(/[,;]/).flatMap((name) => (name.trim() === '' ? [] : [name.trim()]));
}

/** Rows `end` of a show that somebody else, who kept a log too, saw end later. */
function earlyEnds(rows: readonly LogRow[], files: readonly FileRows[]): ReadonlySet<LogRow> {
  const early = new Set<LogRow>();
  let ended: LogRow | undefined;
  for (const row of rows) {
    if (files[row.file]?.where !== 'show') continue;
    if (row.what === 'start' || row.what === 'resume') ended = undefined;
    if (row.what !== 'end') continue;
    if (ended !== undefined && ended.file !== row.file) early.add(ended);
    ended = row;
  }
  return early;
}
