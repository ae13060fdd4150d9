import { runningClock, runningTime, stopEnd } from '../calibration/index.js';
import type { ModuleRecord, StopSeen } from '../logs/index.js';
import { clopperPearson, eventTrend, nextCount, type NextCount, poissonRate } from '../statistics/index.js';

/** What a log says of one module after the show. */
export interface ModuleDebrief {
  readonly module: string;
  readonly builder: string | null;
  /** Seconds somebody watched it on the table, and those of them in which it did not stand still. */
  readonly watched_s: number;
  readonly running_s: number;
  readonly stops: number;
  /** Stops per running hour with exact limits; without a stop only the upper one says something. Null when it never ran while somebody watched. */
  readonly stops_per_hour: {
    readonly rate: number;
    readonly low: number;
    readonly high: number;
    readonly confidence: number;
  } | null;
  /** Stops of another show of the same length, if nothing changes. */
  readonly another_day: NextCount;
  readonly causes: readonly { readonly cause: string; readonly stops: number; readonly stopped_s: number }[];
  readonly stopped_s: number;
  readonly longest_s: number;
  /** Stops that were not cleared while somebody watched. */
  readonly open: number;
  /** Balls that fell from its basket, and those of them while it stood still. */
  readonly spilled: number;
  readonly spilled_while_stopped: number;
  /** Whether stops came more or less often towards the end; null where that cannot be told. */
  readonly trend: 'more often' | 'less often' | null;
  /** Chance of such a trend by luck; null with fewer than five stops. */
  readonly trend_chance: number | null;
  /** Whether it stops more or less often than all others together, for sure. */
  readonly among_others: 'more often' | 'less often' | 'cannot be told';
}

/** Fewer stops than this and a trend is not spoken of. */
const LEAST_FOR_TREND = 5;
const CONFIDENCE = 0.95;

/**
 * What each module of a log did: how often it stopped with the exact limits of a Poisson count, what that cost, whether it
 * got worse (Laplace's test over its running time), and whether it stands out.
 *
 * A module stands out when its share of all stops cannot be its share of all running time: exact binomial limits, at a level
 * divided by the number of modules (Clopper & Pearson 1934; Bonferroni; Przyborowski & Wilenski 1940 for the condition on the sum. From memory).
 *
 * @param records one or several of a module, as `readLogs` gives them
 * @returns one for each module, in the order in which they come first
 * @example
 * const record = { module: 'tipper', where: 'show', watched: [{ from: 0, to: 7200 }], batches: [], stops: [{ cause: 'jam', from: 600, cleared: 660 }], spills: [] };
 * moduleDebriefs([record]).map(({ stops, stopped_s }) => [stops, stopped_s]) // => [[1, 60]]
 */
export function moduleDebriefs(records: readonly ModuleRecord[]): ModuleDebrief[] {
  const ids = [...new Set(records.map(({ module }) => module))];
  const all = ids.map((id) => factsOf(records.filter(({ module }) => module === id)));
  const stops = all.reduce((sum, one) => sum + one.stops, 0);
  const running = all.reduce((sum, one) => sum + one.running_s, 0);
  const confidence = 1 - (1 - CONFIDENCE) / all.length;
  return all.map((one) => ({ ...one, among_others: standsOut(one, stops, running, confidence) }));
}

function factsOf(records: readonly ModuleRecord[]): Omit<ModuleDebrief, 'among_others'> {
  const [first] = records;
  const stops = records.flatMap((record) =>
    record.stops.map((stop) => ({ ...stop, lasted: lasted(record, stop) })),
  );
  const watched = sum(records.flatMap((record) => record.watched.map(({ from, to }) => to - from)));
  const stopped = sum(stops.map((stop) => stop.lasted));
  const running = sum(records.map((record) => runningTime(record).runningSeconds));
  const spills = records.flatMap((record) =>
    record.spills.map(({ at, balls }) => ({ balls, stood: stood(record, at) })),
  );
  const trend =
    stops.length < LEAST_FOR_TREND
      ? null
      : eventTrend(records.map(watchedStops).filter(({ until }) => until > 0));
  const sure = trend !== null && trend.laplacePValue < 1 - CONFIDENCE;
  return {
    module: first?.module ?? '',
    builder: records.find(({ builder }) => builder !== undefined)?.builder ?? null,
    watched_s: watched,
    running_s: running,
    stops: stops.length,
    stops_per_hour: running > 0 ? hourly(stops.length, running) : null,
    another_day: nextCount(stops.length, CONFIDENCE),
    causes: [...new Set(stops.map(({ cause }) => cause))].map((cause) => {
      const own = stops.filter((stop) => stop.cause === cause);
      return { cause, stops: own.length, stopped_s: sum(own.map((stop) => stop.lasted)) };
    }),
    stopped_s: stopped,
    longest_s: stops.reduce((most, stop) => Math.max(most, stop.lasted), 0),
    open: stops.filter(({ cleared }) => cleared === null).length,
    spilled: sum(spills.map(({ balls }) => balls)),
    spilled_while_stopped: sum(spills.map(({ balls, stood }) => (stood ? balls : 0))),
    trend: !sure ? null : trend.laplace > 0 ? 'more often' : 'less often',
    trend_chance: trend?.laplacePValue ?? null,
  };
}

function hourly(stops: number, runningSeconds: number): NonNullable<ModuleDebrief['stops_per_hour']> {
  const { rate, exact, confidence } = poissonRate(stops, runningSeconds / 3600, CONFIDENCE);
  return { rate, low: exact.low, high: exact.high, confidence };
}

function standsOut(
  { stops, running_s: running }: Pick<ModuleDebrief, 'stops' | 'running_s'>,
  allStops: number,
  allRunning: number,
  confidence: number,
): ModuleDebrief['among_others'] {
  if (allStops === 0 || running === 0 || running === allRunning) return 'cannot be told';
  const { low, high } = clopperPearson(stops, allStops, confidence);
  const fair = running / allRunning;
  return fair < low ? 'more often' : fair > high ? 'less often' : 'cannot be told';
}

/** Whether it stood still at a moment. */
function stood(record: ModuleRecord, at: number): boolean {
  return record.stops.some((stop) => stop.from <= at && at <= stopEnd(record, stop));
}

/** How long a stop was watched: to its clearing, or to the end of the stretch. */
function lasted(record: ModuleRecord, stop: StopSeen): number {
  const to = stopEnd(record, stop);
  return sum(
    record.watched.map((stretch) =>
      Math.max(0, Math.min(to, stretch.to) - Math.max(stop.from, stretch.from)),
    ),
  );
}

/** When stops came, on the clock of running time. */
function watchedStops(record: ModuleRecord): { readonly times: number[]; readonly until: number } {
  const { ran, runningSeconds: until } = runningTime(record);
  const ranBy = runningClock(ran);
  // A stop at the very beginning has run for a moment at least.
  return { times: record.stops.map(({ from }) => Math.max(ranBy(from), until * 1e-9)), until };
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
