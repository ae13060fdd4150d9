import type {
  LoopSpec,
  ModuleSpec,
  PullSpec,
  StopCauseSpec,
} from '../../packages/sim-core/src/model/spec/index.js';
import { Agenda, type Entry } from './agenda.js';
import { type Books, newBooks, newTally, type Tally } from './books.js';
import type { Job } from './crew.js';
import type { Luck } from './luck.js';

/** Id of what stands at a place whose module is out when there was no spare. */
export const PLAIN_CHUTE = 'plain chute';

export interface Ball {
  /** It lay on the floor since it passed the counter last (in a chain: since it was fed). */
  fell: boolean;
  /** It was looked for and not lost, in an earlier sweep, since it fell. */
  found: boolean;
  /** Ticks: its last release at the counter; in a chain, when it was fed. */
  passedAt: number | undefined;
}

/** Balls that travel together. */
export interface Batch {
  readonly balls: Ball[];
  readonly arrives: number;
}

/** A clock of `running` or `clock` stops. */
export interface Clock {
  /** Ticks left, counted finer than a tick. */
  left: number;
  /** How fast it runs; 0 when it stands still. */
  rate: number;
  /** When `left` was reckoned last. */
  since: number;
  strike: Entry | undefined;
}

/** What may stand at a place: a module, a spare or a plain chute. */
export interface Machine {
  readonly id: string;
  /** Whose luck it has. */
  readonly owner: string;
  readonly isChute: boolean;
  readonly basket: { readonly capacity: number; readonly order: 'fifo' | 'mixed' };
  readonly drive: ModuleSpec['drive'];
  readonly batch: number;
  readonly catch: number;
  readonly cycle: ModuleSpec['cycle'];
  readonly travel: ModuleSpec['travel'];
  readonly leak: number;
  readonly causes: readonly StopCauseSpec[];
  /** One for each cause, undefined for causes without a clock. */
  readonly clocks: (Clock | undefined)[];
  readonly tally: Tally;
  /** Planned stops of the time it stands in the loop. */
  planned: Entry[];
  /** A spare that stands in the loop, or is being put there. */
  inUse: boolean;
}

export interface Stop {
  readonly cause: StopCauseSpec;
  readonly since: number;
  noticed: boolean;
  /** When it is noticed, when it is cleared, and when it has outlasted its limit. */
  notice: Entry | undefined;
  clearing: Entry | undefined;
  outlasts: Entry | undefined;
}

/** A place in the loop, with the run-out that begins there and what stands there. */
export interface Place {
  readonly at: number;
  readonly home: Machine;
  readonly spec: ModuleSpec;
  readonly chute: Machine | undefined;
  machine: Machine;
  basket: Ball[];
  /** Balls in the mechanism. */
  hand: Ball[];
  doing: 'before the first pick' | 'waiting' | 'in a cycle' | 'held up' | 'between' | 'broken off';
  /** Ticks left of the cycle (or until the first pick) at `cycleFrom`. */
  cycleLeft: number;
  cycleFrom: number;
  cycleEnd: Entry | undefined;
  /** Causes that are going to strike in this cycle, with the ticks of the cycle left until then. */
  strikes: { readonly cause: number; left: number; entry: Entry | undefined }[];
  readonly runOut: { travelling: Batch[]; waiting: Ball[] };
  /** The overflow chute of its basket, and the chute of its lever. */
  overflow: Batch[];
  back: Batch[];
  stop: Stop | undefined;
  /** What is being put in. */
  newcomer: Machine | undefined;
  swapDone: Entry | undefined;
  /** Known to be stopped. */
  known: boolean;
  /** The job of the minder who is clearing or swapping here. */
  attendedBy: Job | undefined;
  wantedOut: boolean;
  /** Beginnings of the module's own stops, since it was put in. */
  ownStops: number[];
  leverSet: boolean;
  /** The minder's job of setting the lever, asked for or on the way. */
  leverJob: Job | undefined;
  /** Spills are on the backlog of a stop. */
  backlog: boolean;
}

export interface Table {
  readonly spec: LoopSpec;
  readonly luck: Luck;
  readonly agenda: Agenda;
  readonly closed: boolean;
  readonly end: number;
  readonly places: Place[];
  readonly spares: Machine[];
  now: number;
  /** Balls on the floor in the order in which they fell. */
  floor: Ball[];
  lost: number;
  box: number;
  entered: number;
  left: number;
  readonly crew: {
    onDuty: number;
    busy: Job[];
    queue: Job[];
  };
  sweepPending: boolean;
  /** A top-up is asked for, under way, or put off for a while. */
  topUpPending: boolean;
  /** Balls have left the path in this event; true at the opening too. */
  someLeft: boolean;
  lockedAt: number | undefined;
  lockedPlaces: number[];
  readonly books: Books;
}

/** Every time drawn or given, as whole ticks of a nanosecond. */
export const ticks = (seconds: number): number => Math.round(seconds * 1e9);

export const isStopped = (place: Place): boolean => place.stop !== undefined || place.newcomer !== undefined;

/** Plans something so many ticks after now. */
export function planIn(
  t: Table,
  delay: number,
  [rank, position, order]: readonly [number, number, number],
  happen: () => void,
): Entry {
  return t.agenda.plan({ time: t.now + delay, rank, position, order, happen });
}

/** Draws a time, in ticks. */
export const drawTicks = (
  t: Table,
  owner: string | null,
  purpose: string,
  spec: ModuleSpec['cycle'],
): number => ticks(t.luck.time(owner, purpose, spec));

/** The place after this one, or undefined when the tray comes after it. */
export const nextPlace = (t: Table, place: Place): Place | undefined =>
  t.places[place.at + 1] ?? (t.closed ? t.places[0] : undefined);

/** The place whose run-out leads to this one, or undefined at the head of a chain. */
export const placeBehind = (t: Table, place: Place): Place | undefined =>
  t.places[place.at - 1] ?? (t.closed ? t.places.at(-1) : undefined);

export const newBall = (): Ball => ({ fell: false, found: false, passedAt: undefined });

/** The table before the opening: empty. */
export function emptyTable(spec: LoopSpec, luck: Luck): Table {
  const places = spec.modules.map((module, at) => newPlace(module, at));
  return {
    spec,
    luck,
    agenda: new Agenda(),
    closed: spec.supply.kind === 'charge',
    end: ticks(spec.show.seconds),
    places,
    spares: (spec.spares ?? []).map((spare) => newMachine(spare)),
    now: 0,
    floor: [],
    lost: 0,
    box: spec.crew.topUp?.box ?? 0,
    entered: 0,
    left: 0,
    crew: { onDuty: spec.crew.duty[0]?.minders ?? 0, busy: [], queue: [] },
    sweepPending: false,
    topUpPending: false,
    someLeft: true,
    lockedAt: undefined,
    lockedPlaces: [],
    books: newBooks(places.length),
  };
}

function newMachine(spec: ModuleSpec): Machine {
  return {
    ...spec,
    owner: spec.id,
    isChute: false,
    causes: spec.stops,
    clocks: spec.stops.map(({ trigger }) =>
      trigger.kind === 'running' || trigger.kind === 'clock'
        ? { left: NaN, rate: 0, since: 0, strike: undefined }
        : undefined,
    ),
    tally: newTally(),
    planned: [],
    inUse: false,
  };
}

/** A plain chute lifts one ball at a time in no time, out of the module's own basket, and never stops. */
function newChute(spec: ModuleSpec, pull: PullSpec | undefined): Machine | undefined {
  return (
    pull?.chute && {
      ...newMachine({
        ...spec,
        id: PLAIN_CHUTE,
        drive: { kind: 'demand', startAt: 1 },
        batch: 1,
        catch: 1,
        cycle: { family: 'constant', value: 0 },
        travel: pull.chute,
        leak: 0,
        stops: [],
      }),
      owner: spec.id,
      isChute: true,
    }
  );
}

function newPlace(spec: ModuleSpec, at: number): Place {
  const home = newMachine(spec);
  return {
    at,
    home,
    spec,
    chute: newChute(spec, spec.pull),
    machine: home,
    basket: [],
    hand: [],
    doing: 'waiting',
    cycleLeft: 0,
    cycleFrom: 0,
    cycleEnd: undefined,
    strikes: [],
    runOut: { travelling: [], waiting: [] },
    overflow: [],
    back: [],
    stop: undefined,
    newcomer: undefined,
    swapDone: undefined,
    known: false,
    attendedBy: undefined,
    wantedOut: false,
    ownStops: [],
    leverSet: false,
    leverJob: undefined,
    backlog: false,
  };
}
