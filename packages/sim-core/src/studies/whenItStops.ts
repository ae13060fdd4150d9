import { ParameterError, requireParameter, SimulationError } from '../errors/index.js';
import {
  downstreamOf,
  isCertain,
  leadSeconds,
  type StopReading,
  type StopShow,
  toStopShow,
} from '../experiments/index.js';
import type { DistributionSpec } from '../distributions/index.js';
import type { LoopSpec, RemedySpec } from '../model/spec/index.js';
import {
  type Estimate,
  meanInterval,
  meanOverShows,
  momentsOf,
  waitingQuantile,
} from '../statistics/index.js';
import { calmAgainAt, calmUpTo } from './calmAgain.js';
import { cutShow } from './cutShow.js';
import { placesThatFlood } from './placesThatFlood.js';
import { settledAfter } from './settled.js';
import { shareOf, type StopAction, stopActions } from './stopActions.js';
import type { Study } from './study.js';
import { system } from './system.js';

/** What a stop is asked about. */
export interface WhenItStopsOptions {
  /** Id of the module that stops. */
  readonly module: string;
  /** Pairs of shows. */
  readonly replications: number;
  /** How long it stops; without it, until a minder has cleared it. */
  readonly stopSeconds?: number;
  /** Without `stopSeconds`: how long the minder works on it, once there. */
  readonly clearSeconds?: number;
  /** The moment at which it stops, public seconds after the opening. @default when the loop has settled */
  readonly atSeconds?: number;
  /** How long the loop is watched after that time. @default 1800 */
  readonly watchSeconds?: number;
  /** How sure it is to be that nothing falls. @default 0.95 */
  readonly sure?: number;
  /** How long taking the module out takes, whatever the file says. */
  readonly swapSeconds?: number;
  /** @default 0.95 */
  readonly confidence?: number;
}

/** Times over the shows, seconds; null where it lies beyond what was watched. */
export interface TimesOver {
  readonly p05: Estimate;
  readonly p50: Estimate;
  readonly p95: Estimate;
}

/** What a stop does to one basket. */
export interface BasketFlood {
  readonly id: string;
  /** What happens there when it is full. */
  readonly when_full: 'spill' | 'back_up' | 'return';
  /** Share of shows in which balls fall there, beyond those that fall without the stop. */
  readonly floods: Estimate;
  /** Share of shows in which more fall there without the stop: so much luck alone makes of it. */
  readonly other_way: Estimate;
  /** When the first of them falls, after the stop begins; shows without count as later. */
  readonly first: TimesOver;
}

/** What happens when one module stops now. */
export interface WhenItStops {
  readonly module: string;
  /** Public seconds after the opening. */
  readonly at_s: number;
  /** Null when it stops until it is cleared. */
  readonly stop_s: number | null;
  readonly clear_s: number | null;
  readonly watched_s: number;
  readonly sure: number;
  /** Pairs of shows the figures rest on, and those left out because the module stood still or was out already. */
  readonly replications: number;
  readonly left_out: number;
  /** Share of shows in which it was taken out instead of being freed or cleared. */
  readonly pulled: Estimate;
  /** Over those shows: when something else ran in its place; null where it never was. */
  readonly pulled_after: TimesOver | null;
  /** How long it stood still. */
  readonly stood: TimesOver;
  /** When its own basket is full and a further ball comes, if it stood still on and on. */
  readonly full: TimesOver;
  /** Places that may flood while it stands still, its own first; and the next three behind it. */
  readonly upstream: readonly BasketFlood[];
  readonly downstream: readonly BasketFlood[];
  /** Balls that fall in the whole loop beyond those without the stop: while it stands still, afterwards, together. */
  readonly spilled: { readonly while_stopped: Estimate; readonly after: Estimate; readonly all: Estimate };
  readonly surge: {
    /** Most balls it hands on within a minute once it runs again; the same time without the stop. */
    readonly handed_on_per_minute: Estimate;
    readonly without: Estimate;
    /** Highest level of the next baskets once it runs again; the same time without the stop. */
    readonly baskets: readonly { readonly id: string; readonly peak: Estimate; readonly without: Estimate }[];
  };
  readonly calm: {
    /** Balls above the usual levels of their baskets up to which the loop counts as calm. */
    readonly up_to_balls: number;
    readonly share: Estimate;
    /** After it runs again, and after the stop began. */
    readonly after: TimesOver;
    readonly at: TimesOver;
  };
  readonly actions: readonly StopAction[];
  /** Balls handed on in each minute; `from_s` after the stop begins. */
  readonly handed_on: readonly {
    readonly from_s: number;
    readonly mean: number;
    readonly p05: number;
    readonly p95: number;
    readonly without: number;
  }[];
}

const WATCH_SECONDS = 1800;
const ZERO: DistributionSpec = { family: 'constant', value: 0 };

/**
 * What happens when one module stops now: pairs of shows with the same luck, with the stop and without.
 *
 * A show in which the module stands still already at that moment, or is out of the loop, is left out and counted. A stop of
 * a given length frees itself: it keeps no minder busy, and no lever is set for it.
 *
 * @throws ParameterError when an option cannot be used
 * @throws SimulationError when fewer than two pairs are left
 * @example
 * const study = new Study({ seed: 1, source: showsHere() });
 * (await whenItStops(study, exampleLoop, { module: 'slow', replications: 3, stopSeconds: 60 })).upstream[0].floods.mean // => 0
 */
export async function whenItStops(
  study: Study,
  spec: LoopSpec,
  options: WhenItStopsOptions,
): Promise<WhenItStops> {
  const { module, replications, stopSeconds, clearSeconds, sure = 0.95, confidence = 0.95 } = options;
  const { atSeconds = settledAfter(spec), watchSeconds = WATCH_SECONDS, swapSeconds } = options;
  const place = checkOptions(spec, options, atSeconds);
  const reading: StopReading = {
    kind: 'stop',
    place,
    atSeconds,
    remedy: remedyOf(spec, place, stopSeconds, clearSeconds ?? 0),
  };
  const loop = cutShow(spec, atSeconds + (stopSeconds ?? clearSeconds ?? 0) + watchSeconds);
  const asked = system(`${module} stops`, loop, reading);
  study.expect([asked], replications);
  await study.simulate([asked], replications);
  const all = Array.from({ length: replications }, (_, r) => toStopShow(study.row(asked, r)));
  const shows = all.filter(({ began }) => began);
  if (shows.length < 2) {
    throw new SimulationError(
      `${module} stands still or is out of the loop at that moment in ${replications - shows.length} of ${replications} shows: choose another moment with --at`,
    );
  }
  const n = shows.length;
  const out = shows.filter(({ pulled }) => pulled);
  const times = (values: readonly number[]): TimesOver => ({
    p05: waitingQuantile(values, 0.05, confidence),
    p50: waitingQuantile(values, 0.5, confidence),
    p95: waitingQuantile(values, 0.95, confidence),
  });
  const share = (values: readonly number[]): Estimate =>
    shareOf(values.filter((value) => value < Infinity).length, n, confidence);
  const mean = (read: (show: StopShow) => number): Estimate =>
    meanInterval(momentsOf(shows.map(read)), confidence);
  // A throughput that cannot vary is that of a loop without chance.
  const certain = isCertain('throughput_bps', spec);
  const most = (read: (show: StopShow) => number): Estimate =>
    meanOverShows(momentsOf(shows.map(read)), confidence, certain, { min: 0 });
  const flood = (m: number, until: (show: StopShow) => number): BasketFlood => {
    const first = shows.map((show) => {
      const at = show.firstExtraSpill[m] ?? Infinity;
      return at < until(show) ? at : Infinity;
    });
    const { id = '', basket } = spec.modules[m] ?? {};
    return {
      id,
      when_full: basket?.whenFull.kind ?? 'spill',
      floods: share(first),
      other_way: share(
        shows.map((show) => {
          const at = show.firstMissingSpill[m] ?? Infinity;
          return at < until(show) ? at : Infinity;
        }),
      ),
      first: times(first),
    };
  };
  const behind = downstreamOf(spec, place);
  const upTo = calmUpTo(shows.map(({ aboveWithout }) => aboveWithout));
  const calm = shows.map(({ above, runsAgain }) =>
    runsAgain === Infinity ? Infinity : calmAgainAt(above, runsAgain, upTo) - runsAgain,
  );
  const places = placesThatFlood(spec, place);
  const firstFall = shows.map((show) => {
    const first = Math.min(...places.map((m) => show.firstExtraSpill[m] ?? Infinity));
    return first < show.runsAgain ? first : Infinity;
  });
  return {
    module,
    at_s: atSeconds,
    stop_s: stopSeconds ?? null,
    clear_s: stopSeconds === undefined ? (clearSeconds ?? null) : null,
    watched_s: loop.show.seconds - atSeconds,
    sure,
    replications: n,
    left_out: replications - n,
    pulled: shareOf(out.length, n, confidence),
    pulled_after: out.length === 0 ? null : times(out.map(({ runsAgain }) => runsAgain)),
    stood: times(shows.map(({ runsAgain }) => runsAgain)),
    full: times(shows.map(({ fullAfter }) => fullAfter)),
    upstream: places.map((m) => flood(m, ({ runsAgain }) => runsAgain)),
    downstream: behind.filter((m) => !places.includes(m)).map((m) => flood(m, () => Infinity)),
    spilled: {
      while_stopped: mean(({ spilledWhileStopped }) => spilledWhileStopped),
      after: mean(({ spilledAfter }) => spilledAfter),
      all: mean(({ spilledWhileStopped, spilledAfter }) => spilledWhileStopped + spilledAfter),
    },
    surge: {
      handed_on_per_minute: most(({ handedPeak }) => handedPeak),
      without: most(({ handedPeakWithout }) => handedPeakWithout),
      baskets: behind.map((m, i) => ({
        id: spec.modules[m]?.id ?? '',
        peak: most(({ peakAfter }) => peakAfter[i] ?? 0),
        without: most(({ peakAfterWithout }) => peakAfterWithout[i] ?? 0),
      })),
    },
    calm: {
      up_to_balls: upTo,
      share: share(calm),
      after: times(calm),
      at: times(calm.map((after, i) => after + (shows[i]?.runsAgain ?? 0))),
    },
    actions: stopActions(spec, place, shows, firstFall, {
      sure,
      confidence,
      ...(swapSeconds !== undefined && { swapSeconds }),
    }),
    handed_on: minutes(shows, atSeconds),
  };
}

function checkOptions(spec: LoopSpec, options: WhenItStopsOptions, atSeconds: number): number {
  const { module, replications, stopSeconds, clearSeconds, sure = 0.95 } = options;
  const check: typeof requireParameter = requireParameter;
  const where = 'whenItStops';
  const place = spec.modules.findIndex(({ id }) => id === module);
  check(place >= 0, where, 'module', module, 'the id of a module of the loop');
  check(
    Number.isSafeInteger(replications) && replications >= 2,
    where,
    'replications',
    replications,
    'a whole number from 2',
  );
  for (const [name, value] of Object.entries({ stopSeconds, clearSeconds }))
    check(value === undefined || (value > 0 && value < Infinity), where, name, value, 'finite and above 0');
  if (stopSeconds === undefined && clearSeconds === undefined)
    throw new ParameterError(where, 'stopSeconds', stopSeconds, 'given, or clearSeconds');
  check(sure > 0.5 && sure < 1, where, 'sure', sure, 'above 0.5 and below 1');
  const end = spec.show.seconds;
  check(
    atSeconds >= 0 && atSeconds + (stopSeconds ?? clearSeconds ?? 0) < end,
    where,
    'atSeconds',
    atSeconds,
    `from 0, and so that the stop ends before the show, after ${end} s`,
  );
  return place;
}

/** How the stop ends: by itself, or by a minder, who comes as the file says that one comes to this module. */
function remedyOf(
  { modules }: LoopSpec,
  place: number,
  stopSeconds: number | undefined,
  clearSeconds: number,
): RemedySpec {
  if (stopSeconds !== undefined) return { kind: 'itself', time: { family: 'constant', value: stopSeconds } };
  const causes = [...(modules[place]?.stops ?? []), ...modules.flatMap(({ stops }) => stops)];
  const crew = causes.map(({ remedy }) => remedy).find((remedy) => remedy.kind === 'crew');
  const { notice = ZERO, walk = ZERO } = crew ?? {};
  return { kind: 'crew', notice, walk, clear: { family: 'constant', value: clearSeconds } };
}

function minutes(shows: readonly StopShow[], atSeconds: number): WhenItStops['handed_on'] {
  const lead = leadSeconds(atSeconds);
  return (shows[0]?.handed ?? []).map((_, minute) => {
    const sorted = shows.map(({ handed }) => handed[minute] ?? 0).toSorted((a, b) => a - b);
    const at = (share: number): number => sorted[Math.ceil(share * sorted.length - 1e-9) - 1] ?? 0;
    return {
      from_s: 60 * minute - lead,
      mean: momentsOf(sorted).mean,
      p05: at(0.05),
      p95: at(0.95),
      without: momentsOf(shows.map(({ handedWithout }) => handedWithout[minute] ?? 0)).mean,
    };
  });
}
