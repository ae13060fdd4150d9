import type { LoopSpec } from '../model/spec/index.js';
import { csvTable } from './csv.js';
import type { LogEntry } from './logEntry.js';
import { momentLabel } from './momentLabel.js';
import { PlaceNames } from './placeNames.js';

/** Columns of the log as a table. */
const COLUMNS = ['time_s', 'clock', 'module', 'what', 'cause', 'by', 'balls', 'seconds', 'note'];

const KIND_WORDS: Readonly<Record<LogEntry['kind'], string>> = {
  stops: 'stops',
  noticed: 'noticed',
  sets_out: 'sets out',
  cleared: 'cleared',
  freed_itself: 'freed itself',
  wanted_out: 'wanted out',
  pulled: 'pulled',
  mended: 'mended',
  put_back: 'put back',
  lever_back: 'lever back',
  lever_forward: 'lever forward',
  lever_left: 'lever left',
  spills: 'spills',
  leaks: 'leaks',
  swept: 'swept',
  topped_up: 'topped up',
  duty: 'duty',
  locked: 'locked',
  lost: 'lost',
};

/**
 * The log of a show as CSV text, one line for each entry. Times are public seconds after the first opening, to the
 * millisecond; `seconds` is how long what ends there has lasted.
 *
 * @example
 * incidentCsv([{ time: 70, kind: 'freed_itself', module: 1, cause: 'jam', seconds: 30 }], exampleLoop).split('\r\n')[1] // => '70,0:01:10,slow,freed itself,jam,itself,,30,'
 */
export function incidentCsv(log: readonly LogEntry[], spec: LoopSpec): string {
  const names = new PlaceNames(spec);
  const rows = log.map((entry) => {
    const { time, kind, module, cause, balls, seconds, minder } = entry;
    const row = [
      milliseconds(time),
      momentLabel(spec.show, time),
      names.module(module),
      KIND_WORDS[kind],
      cause,
      kind === 'freed_itself' ? 'itself' : minder === undefined ? undefined : `minder ${minder}`,
      balls,
      seconds === undefined ? undefined : milliseconds(seconds),
      note(entry, names.standIn(module)),
    ];
    names.follow(entry);
    return row;
  });
  return csvTable(COLUMNS, rows);
}

/** What was done or put in, and what stood in the place of the module. */
function note({ what }: LogEntry, standIn: string | undefined): string {
  return [
    ...(what === undefined ? [] : [what]),
    ...(standIn === undefined ? [] : [`in its place: ${standIn}`]),
  ].join('; ');
}

function milliseconds(seconds: number): number {
  return Math.round(seconds * 1000) / 1000;
}
