import { type PreparedLoop, simulate } from '../model/index.js';
import type { LoopSpec } from '../model/spec/index.js';
import type { LoggedReading } from './reading.js';

/** Laps are told by so many quantiles, at the middles of as many equal parts. */
export const LAP_QUANTILES = 40;

/** What is told of each module. */
const PER_MODULE = 4;

/** What one show has of what a log of a show tells. */
export interface LoggedShow {
  /** In loop order, within the stretches of the log. */
  readonly modules: readonly {
    /** Stops of the module itself, not of what stood in its place. */
    readonly stops: number;
    /** Those of them that were cleared, or freed themselves, within the stretches; and how long they had lasted, seconds. */
    readonly cleared: number;
    readonly clearedSeconds: number;
    /** Balls spilled at its basket. */
    readonly spilled: number;
  }[];
  /** Balls that passed the counter from one of the moments to the next. */
  readonly passes: readonly number[];
  /** Quantiles of the laps of the whole show, seconds; NaN when there was none. */
  readonly laps: readonly number[];
}

/** How many numbers tell of one show. */
export function loggedRowLength({ modules }: LoopSpec, { counterAt }: LoggedReading): number {
  return PER_MODULE * modules.length + Math.max(0, counterAt.length - 1) + LAP_QUANTILES;
}

/** Simulates one show and tells of it what a log tells, as a row of numbers (see `toLoggedShow`). */
export function readLogged(
  loop: PreparedLoop,
  { stretches, counterAt, inline = [] }: LoggedReading,
  seed: number,
  replication: number,
): readonly number[] {
  const { spec, plan } = loop;
  const told = new Float64Array(PER_MODULE * spec.modules.length);
  const tell = (m: number, what: number, amount: number): void => {
    const i = PER_MODULE * m + what;
    told[i] = (told[i] ?? 0) + amount;
  };
  const out = new Uint8Array(spec.modules.length);
  const own = new Map(inline.map((one) => [one.module, one.stretches]));
  const isWithin = (some: LoggedReading['stretches'], time: number): boolean =>
    some.some(({ from, to }) => time >= from && time <= to);
  const result = simulate(loop, {
    seed,
    replication,
    // The counter is read at the moments of the log and at no others.
    plan: {
      ...plan,
      sliceEnds: [...counterAt.filter((at) => at > 0 && at < spec.show.seconds), spec.show.seconds],
    },
    log: ({ kind, module: m, time, balls = 0, seconds = 0 }) => {
      if (kind === 'pulled') out[m] = 1;
      else if (kind === 'put_back') out[m] = 0;
      else if (isWithin(stretches, time)) {
        if (kind === 'spills') tell(m, 3, balls);
        if (out[m] === 1 || !isWithin(own.get(m) ?? stretches, time)) return;
        if (kind === 'stops') tell(m, 0, 1);
        if (kind === 'cleared' || kind === 'freed_itself') {
          tell(m, 1, 1);
          tell(m, 2, seconds);
        }
      }
    },
  });
  return [
    ...told,
    ...passesBetween(result.series.passes, counterAt),
    ...lapQuantiles(result.lapHistogram, plan.lapBinSeconds),
  ];
}

/** The counts of the slices that end at the moments of the log, but for the first, which begins with the show. */
function passesBetween(slices: Float64Array, counterAt: readonly number[]): number[] {
  const before = counterAt.filter((at) => at <= 0).length;
  return counterAt.slice(1).map((_, i) => (i + 1 < before ? 0 : (slices[i + 1 - before] ?? NaN)));
}

/** Quantiles of a histogram, each at the middle of its bar. */
function lapQuantiles(histogram: Float64Array, binSeconds: number): number[] {
  const count = histogram.reduce((sum, laps) => sum + laps, 0);
  const found: number[] = [];
  let below = 0;
  let bar = 0;
  for (let q = 0; q < LAP_QUANTILES; q++) {
    const wanted = ((q + 0.5) / LAP_QUANTILES) * count;
    while (bar < histogram.length && below + (histogram[bar] ?? 0) < wanted) below += histogram[bar++] ?? 0;
    found.push(count === 0 ? NaN : (bar + 0.5) * binSeconds);
  }
  return found;
}

/**
 * What a row of numbers says, as `readLogged` gives it.
 *
 * @param row numbers of one show
 * @param modules how many modules there are
 * @param moments how many readings of the counter
 */
export function toLoggedShow(row: readonly number[], modules: number, moments: number): LoggedShow {
  const at = (i: number): number => row[i] ?? NaN;
  const first = PER_MODULE * modules;
  const laps = first + Math.max(0, moments - 1);
  return {
    modules: Array.from({ length: modules }, (_, m) => ({
      stops: at(PER_MODULE * m),
      cleared: at(PER_MODULE * m + 1),
      clearedSeconds: at(PER_MODULE * m + 2),
      spilled: at(PER_MODULE * m + 3),
    })),
    passes: row.slice(first, laps),
    laps: row.slice(laps),
  };
}
