import { requireParameter } from '../errors/index.js';
import { LAP_QUANTILES, type LoggedShow, toLoggedShow } from '../experiments/index.js';
import type { LoopSpec, ModuleCounted } from '../model/spec/index.js';
import { stream } from '../random/index.js';
import { jointRanks, type PredictionBand, predictionBand } from '../statistics/index.js';
import type { Study } from './study.js';
import { system } from './system.js';

/** A stretch of public time, seconds after the opening. */
interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** What was written down at a show, in public seconds after its opening. */
export interface MatchLog {
  /** When somebody watched, rising and apart. */
  readonly stretches: readonly Stretch[];
  readonly modules: readonly {
    readonly module: string;
    readonly stops: number;
    /** How long each stop lasted that was seen to its end, seconds. */
    readonly clears: readonly number[];
    /** Balls that fell from its basket; null where nobody counted. */
    readonly spilled: number | null;
    /**
     * When it stood in the loop and when not, within the stretches, if it was taken out by hand: its stops and clear times are
     * those of the first. @default it stood there always
     */
    readonly takenOut?: { readonly inline: readonly Stretch[]; readonly out: readonly Stretch[] };
  }[];
  /** Balls that passed the counter between two readings of it. */
  readonly passes: readonly { readonly from: number; readonly to: number; readonly balls: number }[];
  /** Laps of marked balls, seconds. */
  readonly laps: readonly number[];
}

/** Which figure of the log: stops of a module, its mean time from stop to cleared, balls fallen, balls passed, mean lap. */
export type LoggedFigure = 'stops' | 'clear_s' | 'spilled' | 'passes' | 'lap_s';

/** One figure of the log beside what simulated shows have. */
export interface Matched {
  readonly figure: LoggedFigure;
  readonly module: string | null;
  /** Of balls passed: between which readings, public seconds; else null. */
  readonly from_s: number | null;
  readonly to_s: number | null;
  readonly logged: number;
  /** Null when too few shows have such a figure. */
  readonly predicted: PredictionBand | null;
  /** Chance that in a show of the file some figure or other lies so far out, see `jointRanks`. */
  readonly chance: number;
  readonly verdict: 'fits' | 'outside its band' | 'differs';
}

/** Whether a file matches what was logged. */
export interface Match {
  readonly verdict: 'fits' | 'differs' | 'nothing to compare';
  readonly figures: readonly Matched[];
  /** Modules that were taken out by hand in the log, and when, while somebody watched. */
  readonly out: readonly { readonly module: string; readonly from_s: number; readonly to_s: number }[];
  /** Chance at most that a show of the file is said to differ. */
  readonly level: number;
  readonly replications: number;
}

/** @default replications 199, confidence 0.95 */
export interface MatchOptions {
  /** Shows to simulate: from 39 on there is a 95 % band. */
  readonly replications?: number;
  readonly confidence?: number;
  /** What figures of the file were counted from: each show then has parameters of its own draw. @default they are taken at their word */
  readonly counted?: readonly ModuleCounted[];
}

const REPLICATIONS = 199;
const CONFIDENCE = 0.95;

/** A figure with what is compared: counts by their root, times by their logarithm, so that both scatter alike on either side. */
interface Figure extends Pick<Matched, 'figure' | 'module' | 'from_s' | 'to_s' | 'logged'> {
  readonly of: (show: LoggedShow, replication: number) => number;
  readonly scaled: (value: number) => number;
}

/** Anscombe 1948 (Biometrika 35, 246-254, from memory): the variance of a Poisson count nearly loses its mean. */
const root = (count: number): number => 2 * Math.sqrt(count + 3 / 8);
/** Of a time; what is shorter than a log can tell counts as this many seconds, for there is no logarithm of 0. */
const SHORTEST = 0.1;
const logarithm = (seconds: number): number => Math.log(Math.max(SHORTEST, seconds));
const plain = (value: number): number => value;

/**
 * Holds a log of a show against simulated shows of a file, figure by figure: the same stretches watched, the counter read at
 * the same moments, as many laps followed. It differs when a figure lies farther out than the oddest of all but 5 % of shows of the
 * file (see `jointRanks`); a figure outside its own band alone may be luck, as one in twenty is. Of a module that was taken out
 * by hand, stops and clear times are held against those of the time in which it stood in the loop, in both; in the simulated
 * shows it runs on meanwhile.
 *
 * @throws ParameterError when a module is not in the loop, or an option cannot be used
 * @throws SimulationError when a show cannot be simulated
 * @example
 * const study = new Study({ seed: 1, source: showsHere() });
 * const log = { stretches: [{ from: 0, to: 3600 }], modules: [{ module: 'slow', stops: 500, clears: [], spilled: null }], passes: [], laps: [] };
 * (await match(study, exampleLoop, log, { replications: 39 })).verdict // => 'differs'
 */
export async function match(
  study: Study,
  spec: LoopSpec,
  log: MatchLog,
  { replications = REPLICATIONS, confidence = CONFIDENCE, counted = [] }: MatchOptions = {},
): Promise<Match> {
  const fewest = Math.ceil(2 / (1 - confidence) - 1e-9) - 1;
  requireParameter(
    Number.isSafeInteger(replications) && replications >= fewest,
    'match',
    'replications',
    replications,
    `a whole number from ${fewest}, for a band at all`,
  );
  const counterAt = [...new Set(log.passes.flatMap(({ from, to }) => [from, to]))].toSorted((a, b) => a - b);
  const inline = log.modules.flatMap(({ module, takenOut }) =>
    takenOut === undefined
      ? []
      : [{ module: spec.modules.findIndex(({ id }) => id === module), stretches: takenOut.inline }],
  );
  const out = log.modules.flatMap(({ module, takenOut }) =>
    (takenOut?.out ?? []).map(({ from, to }) => ({ module, from_s: from, to_s: to })),
  );
  const loop = system(
    'as the file says',
    spec,
    { kind: 'logged', stretches: log.stretches, counterAt, ...(inline.length > 0 && { inline }) },
    counted.length === 0 ? undefined : { counted, showsPerDraw: 1 },
  );
  const figures = figuresOf(study, spec, log, counterAt);
  const level = 1 - confidence;
  if (figures.length === 0)
    return { verdict: 'nothing to compare', figures: [], out, level, replications: 0 };
  study.expect([loop], replications);
  await study.simulate([loop], replications);
  const values = Array.from({ length: replications }, (_, r) => {
    const show = toLoggedShow(study.row(loop, r), spec.modules.length, counterAt.length);
    return figures.map(({ of }) => of(show, r));
  });
  const chances = jointRanks(
    figures.map(({ logged, scaled }) => scaled(logged)),
    values.map((row) => row.map((value, j) => figures[j]?.scaled(value) ?? NaN)),
  );
  const matched = figures.map(({ figure, module, from_s, to_s, logged }, j): Matched => {
    const predicted = predictionBand(
      values.map((row) => row[j] ?? NaN),
      confidence,
    );
    const chance = chances[j] ?? NaN;
    const out = predicted !== null && (logged < predicted.low || logged > predicted.high);
    // The shows that lie as far out may all lie on the other side: a figure within its own band is no odd one.
    const verdict =
      chance <= level && (out || predicted === null) ? 'differs' : out ? 'outside its band' : 'fits';
    return { figure, module, from_s, to_s, logged, predicted, chance, verdict };
  });
  const differs = matched.some(({ verdict }) => verdict === 'differs');
  return { verdict: differs ? 'differs' : 'fits', figures: matched, out, level, replications };
}

function figuresOf(
  { seed }: Study,
  spec: LoopSpec,
  { modules, passes, laps }: MatchLog,
  counterAt: readonly number[],
): Figure[] {
  const nowhere = { module: null, from_s: null, to_s: null };
  const ofModules = modules.flatMap(({ module, stops, clears, spilled, takenOut }): Figure[] => {
    const m = spec.modules.findIndex(({ id }) => id === module);
    requireParameter(m >= 0, 'match', 'module', module, 'a module of the loop');
    const of =
      (read: (one: LoggedShow['modules'][number]) => number) =>
      (show: LoggedShow): number => {
        const one = show.modules[m];
        return one === undefined ? NaN : read(one);
      };
    const own = { ...nowhere, module };
    return [
      // One that was out all the time had none to compare.
      ...(takenOut?.inline.length === 0
        ? []
        : [
            {
              ...own,
              figure: 'stops' as const,
              logged: stops,
              of: of((one) => one.stops),
              scaled: root,
            },
          ]),
      ...(clears.length === 0
        ? []
        : [
            {
              ...own,
              figure: 'clear_s' as const,
              logged: mean(clears),
              of: of((one) => one.clearedSeconds / one.cleared),
              scaled: logarithm,
            },
          ]),
      ...(spilled === null
        ? []
        : [
            {
              ...own,
              figure: 'spilled' as const,
              logged: spilled,
              of: of((one) => one.spilled),
              scaled: root,
            },
          ]),
    ];
  });
  const ofCounter = passes.map(({ from, to, balls }): Figure => {
    const first = counterAt.indexOf(from);
    const last = counterAt.indexOf(to);
    return {
      figure: 'passes',
      module: null,
      from_s: from,
      to_s: to,
      logged: balls,
      of: (show) => show.passes.slice(first, last).reduce((sum, some) => sum + some, 0),
      scaled: plain,
    };
  });
  const lap: Figure[] =
    laps.length === 0
      ? []
      : [
          {
            ...nowhere,
            figure: 'lap_s',
            logged: mean(laps),
            of: (show, replication) => {
              const luck = stream({ seed, replication, place: null, purpose: 'marked balls' });
              return mean(laps.map(() => show.laps[Math.floor(luck() * LAP_QUANTILES)] ?? NaN));
            },
            scaled: plain,
          },
        ];
  return [...ofModules, ...ofCounter, ...lap];
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
