import { type LoopView, simulate } from '../model/index.js';
import type { LoopSpec } from '../model/spec/index.js';
import type { StopReading } from './reading.js';

/** Seconds between two looks at all baskets. */
export const LOOK_SECONDS = 5;
/** So many baskets downstream are watched. */
const DOWNSTREAM = 3;
/** What is handed on is counted from so many seconds before the stop. */
export const LEAD_SECONDS = 120;

/** So many balls at a moment, seconds after the stop begins. */
export interface BallsAt {
  readonly at: number;
  readonly balls: number;
}

/** What is written down of one show, from the moment of the stop on; times are seconds after that moment. */
export interface StopRun {
  /** Whether the stop began: not where the module was stopped or out of the loop already. */
  began: boolean;
  /** Whether the module was taken out instead of being freed or cleared. */
  pulled: boolean;
  /** When the place runs again; Infinity when it does not by the end. */
  runsAgain: number;
  /** By lever: when more balls are in the basket and on their way to it from there than it holds; Infinity if never. */
  readonly leverTooLate: number[];
  readonly spills: (BallsAt & { readonly module: number })[];
  /** Balls that arrive behind the module, from {@link LEAD_SECONDS} before on. */
  readonly handed: BallsAt[];
  /** Levels of all baskets, every {@link LOOK_SECONDS} from the stop on. */
  readonly levels: Int32Array[];
  /** Highest level of each basket downstream since the place runs again. */
  readonly peaks: number[];
}

/** Indexes of the baskets downstream that are watched, nearest first: those up to three places on, without the module. */
export function downstreamOf(spec: LoopSpec, place: number): number[] {
  const n = spec.modules.length;
  const closed = spec.supply.kind === 'charge';
  return Array.from({ length: DOWNSTREAM }, (_, i) => place + 1 + i)
    .filter((m) => m < n || (closed && m - n < place))
    .map((m) => m % n);
}

/** Indexes of the modules whose levers watch this one. */
export function leversFor({ modules }: LoopSpec, place: number): number[] {
  return modules.flatMap(({ lever }, m) => (lever?.watches.includes(place) ? [m] : []));
}

/** Balls in the basket of a place, and on their way to it from another place on. */
function comingTo(view: LoopView, place: number, from: number): number {
  const n = view.modules;
  let balls = view.level(place) + view.onRunOut(from);
  for (let m = (from + 1) % n; m !== place; m = (m + 1) % n)
    balls += view.level(m) + view.held(m) + view.onRunOut(m);
  return balls;
}

/**
 * Simulates one show and writes down what a stop of one module is judged by.
 *
 * @param spec the show, with the stop or without
 * @param cause id of the stop; undefined in the show without
 * @param runsAgain for the show without: from when on peaks count, seconds after the moment of the stop
 * @param also called after each event, before anything is written down
 */
export function watchRun(
  spec: LoopSpec,
  { place, atSeconds }: StopReading,
  luck: { readonly seed: number; readonly replication: number },
  {
    cause,
    runsAgain = Infinity,
    also,
  }: {
    readonly cause?: string;
    readonly runsAgain?: number;
    readonly also?: (view: LoopView) => void;
  },
): StopRun {
  const capacity = spec.modules[place]?.basket.capacity ?? Infinity;
  const levers = leversFor(spec, place);
  const watched = downstreamOf(spec, place);
  const run: StopRun = {
    began: false,
    pulled: false,
    runsAgain,
    leverTooLate: levers.map(() => Infinity),
    spills: [],
    handed: [],
    levels: [],
    peaks: watched.map(() => 0),
  };
  let onRunOut = 0;
  let nextLook = 0;
  simulate(spec, {
    ...luck,
    log: ({ time, kind, module, cause: of, balls = 0 }) => {
      const at = time - atSeconds;
      if (at < 0) return;
      if (kind === 'spills') run.spills.push({ at, module, balls });
      else if (cause === undefined || module !== place || run.runsAgain < Infinity) return;
      else if (kind === 'stops' && of === cause) run.began = true;
      else if (run.began && (kind === 'cleared' || kind === 'freed_itself' || kind === 'pulled')) {
        run.runsAgain = at;
        run.pulled = kind === 'pulled';
      }
    },
    observe: (view) => {
      also?.(view);
      const at = view.now - atSeconds;
      if (at < -LEAD_SECONDS) return;
      const on = view.onRunOut(place);
      if (on < onRunOut) run.handed.push({ at, balls: onRunOut - on });
      onRunOut = on;
      if (at < 0) return;
      for (; nextLook <= at; nextLook += LOOK_SECONDS)
        run.levels.push(Int32Array.from(spec.modules, (_, m) => view.level(m)));
      if (run.began && run.runsAgain === Infinity) {
        for (const [i, m] of levers.entries())
          if (run.leverTooLate[i] === Infinity && comingTo(view, place, m) > capacity)
            run.leverTooLate[i] = at;
      }
      if (at >= run.runsAgain)
        for (const [i, m] of watched.entries()) run.peaks[i] = Math.max(run.peaks[i] ?? 0, view.level(m));
    },
  });
  return run;
}
