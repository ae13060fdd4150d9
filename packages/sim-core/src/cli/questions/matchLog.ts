import { type ModuleRecord, type ReadLog, without } from '../../logs/index.js';
import { type LoopSpec, publicSeconds, sessionsOf } from '../../model/spec/index.js';
import type { MatchLog } from '../../studies/index.js';

const DAY = 86400;

/**
 * The log of a show as it is held against a scenario: its times by the clock become public seconds of the show, and modules
 * of which it says nothing did not stop. What lies outside the hours of the show is not compared.
 *
 * @param day of the show on which the log begins, from 1; only where the log is by the clock
 * @returns what is held against the scenario, and how many stops, spills and counter readings lie outside its hours
 */
export function toMatchLog(
  log: ReadLog,
  { show, modules }: LoopSpec,
  day = 1,
): { readonly held: MatchLog; readonly outside: number } {
  const { clockSeconds, sessions, counter, laps, records } = log;
  // A log without clock times begins with the opening.
  const begins =
    clockSeconds === undefined ? 0 : clockSeconds + (day - 1) * DAY - (show.opensAtSeconds ?? clockSeconds);
  const moment = (at: number): number => Math.min(publicSeconds(show, at + begins), show.seconds);
  const isOpen = (at: number): boolean =>
    sessionsOf(show).some(({ fromSeconds, clockSeconds: opens, toSeconds }) => {
      const since = at + begins - opens;
      return since >= 0 && since <= toSeconds - fromSeconds;
    });
  const told = records.filter(({ where }) => where === 'show');
  const shows = told.map((record) => ({
    ...record,
    stops: record.stops.filter(({ from }) => isOpen(from)),
    spills: record.spills.filter(({ at }) => isOpen(at)),
  }));
  const outside = rowsOf(told) - rowsOf(shows) + counter.filter(({ at }) => !isOpen(at)).length;
  const counted = shows.some(({ spills }) => spills.length > 0);
  const stretches = sessions
    .map(({ from, to }) => ({ from: moment(from), to: moment(to) }))
    .filter(({ from, to }) => to > from);
  const held: MatchLog = {
    stretches,
    modules:
      stretches.length === 0
        ? []
        : modules.map(({ id, pull }) => {
            const own = shows.filter(({ module }) => module === id);
            // Where the file pulls by a rule, pulling is part of what it says.
            return ofModule(
              id,
              own,
              counted,
              pull === undefined ? inlineTimes(own, stretches, moment) : undefined,
            );
          }),
    passes: counter
      .slice(1)
      .flatMap(({ at, reading, run }, i) => {
        const before = counter[i];
        return before?.run === run && isOpen(before.at) && isOpen(at)
          ? [{ from: moment(before.at), to: moment(at), balls: reading - before.reading }]
          : [];
      })
      .filter(({ from, to }) => to > from),
    laps: laps.map(({ seconds }) => seconds),
  };
  return { held, outside };
}

function rowsOf(records: readonly ModuleRecord[]): number {
  return records.reduce((sum, { stops, spills }) => sum + stops.length + spills.length, 0);
}

function ofModule(
  module: string,
  records: readonly ModuleRecord[],
  counted: boolean,
  takenOut: MatchLog['modules'][number]['takenOut'],
): MatchLog['modules'][number] {
  const stops = records.flatMap((record) => record.stops);
  const spills = records.flatMap((record) => record.spills);
  return {
    module,
    stops: stops.length,
    clears: stops.flatMap(({ from, cleared }) => (cleared === null ? [] : [cleared - from])),
    spilled: counted ? spills.reduce((sum, { balls }) => sum + balls, 0) : null,
    ...(takenOut !== undefined && { takenOut }),
  };
}

/** When a module stood in the loop while somebody watched; undefined when that was always. */
function inlineTimes(
  records: readonly ModuleRecord[],
  stretches: MatchLog['stretches'],
  moment: (at: number) => number,
): MatchLog['modules'][number]['takenOut'] {
  if (records.length === 0) return undefined;
  const own = records
    .flatMap(({ watched }) => watched.map(({ from, to }) => ({ from: moment(from), to: moment(to) })))
    .filter(({ from, to }) => to > from)
    .toSorted((a, b) => a.from - b.from);
  const out = without(stretches, own);
  return out.length === 0 ? undefined : { inline: own, out };
}
