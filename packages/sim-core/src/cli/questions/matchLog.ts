import type { ModuleRecord, ReadLog } from '../../logs/index.js';
import { type LoopSpec, publicSeconds } from '../../model/spec/index.js';
import type { MatchLog } from '../../studies/index.js';

const DAY = 86400;

/**
 * The log of a show as it is held against a scenario: its times by the clock become public seconds of the show, and modules
 * of which it says nothing did not stop.
 *
 * @param day of the show on which the log begins, from 1; only where the log is by the clock
 */
export function toMatchLog(log: ReadLog, { show, modules }: LoopSpec, day = 1): MatchLog {
  const { clockSeconds, sessions, counter, laps, records } = log;
  // A log without clock times begins with the opening.
  const begins =
    clockSeconds === undefined ? 0 : clockSeconds + (day - 1) * DAY - (show.opensAtSeconds ?? clockSeconds);
  const moment = (at: number): number => Math.min(publicSeconds(show, at + begins), show.seconds);
  const shows = records.filter(({ where }) => where === 'show');
  const counted = shows.some(({ spills }) => spills.length > 0);
  const stretches = sessions
    .map(({ from, to }) => ({ from: moment(from), to: moment(to) }))
    .filter(({ from, to }) => to > from);
  return {
    stretches,
    modules:
      stretches.length === 0
        ? []
        : modules.map(({ id }) =>
            ofModule(
              id,
              shows.filter(({ module }) => module === id),
              counted,
            ),
          ),
    passes: counter
      .slice(1)
      .flatMap(({ at, reading, run }, i) => {
        const before = counter[i];
        return before?.run === run
          ? [{ from: moment(before.at), to: moment(at), balls: reading - before.reading }]
          : [];
      })
      .filter(({ from, to }) => to > from),
    laps: laps.map(({ seconds }) => seconds),
  };
}

function ofModule(
  module: string,
  records: readonly ModuleRecord[],
  counted: boolean,
): MatchLog['modules'][number] {
  const stops = records.flatMap((record) => record.stops);
  const spills = records.flatMap((record) => record.spills);
  return {
    module,
    stops: stops.length,
    clears: stops.flatMap(({ from, cleared }) => (cleared === null ? [] : [cleared - from])),
    spilled: counted ? spills.reduce((sum, { balls }) => sum + balls, 0) : null,
  };
}
