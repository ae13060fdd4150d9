import type { LoopSpec, StopCauseSpec } from '../model/spec/index.js';
import { ballsAbove, usualLevels } from './aboveUsual.js';
import { type ImaginedStop, ImaginedStops } from './imaginedStops.js';
import type { StopReading } from './reading.js';
import { type BallsAt, LEAD_SECONDS, leversFor, type StopRun, watchRun } from './stopRun.js';
import { type StopShow, toNumbers } from './stopShow.js';

/** Width of the bins in which hand-offs are counted, seconds. */
const BIN_SECONDS = 60;

/**
 * One show with a module stopped from a certain moment on, beside the same show without: both have the same luck, and are
 * the same to the last ball until then.
 *
 * @param spec the loop without the stop, as long as it is to be watched
 * @returns a {@link StopShow} as numbers
 */
export function readStop(
  spec: LoopSpec,
  reading: StopReading,
  seed: number,
  replication: number,
): readonly number[] {
  const { place, atSeconds } = reading;
  const luck = { seed, replication };
  const cause = stopId(spec, place);
  const withStop = watchRun(stoppedLoop(spec, reading), reading, luck, { cause });
  if (!withStop.began) return toNumbers(beside(spec, reading, withStop, withStop, []));
  const imagined = new ImaginedStops(spec);
  const levers = leversFor(spec, place);
  let found: ImaginedStop[] | undefined;
  const without = watchRun(spec, reading, luck, {
    runsAgain: withStop.runsAgain,
    also: (view) => {
      if (view.now > atSeconds) found ??= [place, ...levers].map((m) => imagined.begin(m, atSeconds));
      imagined.observe(view);
    },
  });
  const floods = (found ?? []).map(({ after }) => after);
  return toNumbers(beside(spec, reading, without, withStop, floods));
}

/** The loop with one more, planned, stop of one module. */
export function stoppedLoop(spec: LoopSpec, { place, atSeconds, remedy }: StopReading): LoopSpec {
  const cause: StopCauseSpec = {
    id: stopId(spec, place),
    trigger: { kind: 'at', times: [atSeconds] },
    drops: 0,
    remedy,
  };
  const modules = spec.modules.map((module, m) =>
    m === place ? { ...module, stops: [...module.stops, cause] } : module,
  );
  return { ...spec, modules };
}

/** A name for the stop that no cause of the module has, so that their luck stays theirs. */
function stopId(spec: LoopSpec, place: number): string {
  let id = 'now';
  while (spec.modules[place]?.stops.some((cause) => cause.id === id)) id += '-';
  return id;
}

/** What the stop changed. */
function beside(
  spec: LoopSpec,
  { atSeconds }: StopReading,
  without: StopRun,
  withStop: StopRun,
  [fullAfter = Infinity, ...leverFloods]: readonly number[],
): StopShow {
  const { began, pulled, runsAgain, leverTooLate } = withStop;
  const usual = usualLevels(without.levels);
  const extra = (from: number, to: number): number =>
    spilled(withStop, from, to) - spilled(without, from, to);
  return {
    began,
    pulled,
    runsAgain,
    fullAfter,
    spilledWhileStopped: extra(0, runsAgain),
    spilledAfter: extra(runsAgain, Infinity),
    handedPeak: mostPerMinute(withStop.handed, runsAgain),
    handedPeakWithout: mostPerMinute(without.handed, runsAgain),
    firstExtraSpill: spec.modules.map((_, m) => firstExtra(without, withStop, m)),
    firstMissingSpill: spec.modules.map((_, m) => firstExtra(withStop, without, m)),
    leverTooLate,
    leverFloods,
    peakAfter: withStop.peaks,
    peakAfterWithout: without.peaks,
    above: ballsAbove(withStop.levels, usual),
    aboveWithout: ballsAbove(without.levels, usual),
    handed: minuteByMinute(withStop.handed, atSeconds, spec.show.seconds),
    handedWithout: minuteByMinute(without.handed, atSeconds, spec.show.seconds),
  };
}

function spilled({ spills }: StopRun, from: number, to: number): number {
  return spills.reduce((sum, { at, balls }) => (at >= from && at < to ? sum + balls : sum), 0);
}

/** When more balls have spilled at a place in one show than had by then in the other. */
function firstExtra(than: StopRun, run: StopRun, place: number): number {
  const here = ({ spills }: StopRun): BallsAt[] => spills.filter(({ module }) => module === place);
  const others = here(than);
  let more = 0;
  let next = 0;
  for (const { at, balls } of here(run)) {
    for (; (others[next]?.at ?? Infinity) <= at; next++) more -= others[next]?.balls ?? 0;
    more += balls;
    if (more > 0) return at;
  }
  return Infinity;
}

/** Most balls within any minute from a moment on. */
function mostPerMinute(handed: readonly BallsAt[], from: number): number {
  const later = handed.filter(({ at }) => at >= from);
  let most = 0;
  let within = 0;
  let first = 0;
  for (const { at, balls } of later) {
    within += balls;
    // What lies a minute back on paper may miss it by rounding.
    for (; (later[first]?.at ?? at) <= at - BIN_SECONDS + 1e-6; first++) within -= later[first]?.balls ?? 0;
    most = Math.max(most, within);
  }
  return most;
}

/** When the first of these minutes begins, seconds before the stop: so many whole minutes as there are, up to two. */
export function leadSeconds(atSeconds: number): number {
  return Math.min(LEAD_SECONDS, Math.floor(atSeconds / BIN_SECONDS) * BIN_SECONDS);
}

/** Balls in each whole minute, from just before the stop to the end. */
function minuteByMinute(handed: readonly BallsAt[], atSeconds: number, end: number): number[] {
  const lead = leadSeconds(atSeconds);
  const minutes = new Array<number>(Math.floor((end - atSeconds + lead) / BIN_SECONDS)).fill(0);
  for (const { at, balls } of handed) {
    const minute = Math.floor((at + lead) / BIN_SECONDS);
    if (minute >= 0 && minute < minutes.length) minutes[minute] = (minutes[minute] ?? 0) + balls;
  }
  return minutes;
}
