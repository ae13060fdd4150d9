import { EventQueue } from '../kernel/index.js';
import type { DistributionSpec } from '../distributions/index.js';
import { BallLists } from './ballLists.js';
import { Balls } from './balls.js';
import { Chances } from './chances.js';
import { Draws } from './draws.js';
import { Equipment, isZero } from './equipment.js';
import { HeadStart, type Pace } from './headStart.js';
import type { Incident } from './incident.js';
import type { MeasurePlan } from './measurePlan.js';
import { Progress } from './progress.js';
import { Series } from './series.js';
import type { LoopSpec, ModuleSpec, WhenFullSpec } from './spec/index.js';
import { CLOCK, type SourceList, StopTable } from './stopTable.js';
import { onTick } from './tick.js';
import { Totals } from './totals.js';
import { watchersOf } from './watchers.js';

/** What a mechanism is doing, apart from being stopped. */
export const WAITING = 0; // demand drive, too few balls
export const STARTING = 1; // continuous drive, before its first pick
export const CYCLING = 2;
export const HELD_UP = 3; // the cycle is over, and what it holds does not fit onto the run-out
export const BETWEEN = 4; // within the event in which one cycle has ended and the next is to begin

/** What a timer is for; those of a place are numbered from that place on. */
export const ROLES = {
  mechanism: 0,
  runOut: 1,
  chute: 2,
  outlasts: 3,
  mended: 4,
  lever: 5,
  clock: 6,
  planned: 7,
  single: 8,
} as const;

/** How far topping up has got. */
export const NOTHING_DUE = 0;
export const TOP_UP_ASKED = 1;
export const TOP_UP_UNDER_WAY = 2;
export const TOP_UP_LATER = 3;

/** Lists of balls on the floor: not looked for yet, and found but without room in the basket. */
export const FALLEN = 0;
export const FOUND = 1;

/**
 * The whole state of one replication. Modules are numbered from 0 in loop order; everything by module is a typed array,
 * so that an event touches a few numbers and allocates nothing. The functions that change it stand beside this file, one
 * file for each part of the table: mechanism, run-out, basket, chutes, stops, crew, swaps, levers, sweep, top-up, feed.
 */
export class LoopState {
  readonly spec: LoopSpec;
  readonly modules: number;
  /** True for a closed loop, false for an open chain. */
  readonly closed: boolean;
  readonly counter: number;
  readonly end: number;

  readonly queue: EventQueue = new EventQueue();
  readonly progress: Progress = new Progress();
  /** By place: the one after it; -1 for the tray at the end of a chain. */
  readonly placeAfter: Int32Array;
  readonly balls: Balls;
  readonly baskets: BallLists;
  readonly held: BallLists;
  readonly runOuts: BallLists;
  /** Overflow chutes and chutes of levers. */
  readonly chutes: BallLists;
  readonly floor: BallLists;
  /** Fallen balls that nobody will pick up: in a chain without sweeping they are only counted. */
  floorForgotten = 0;
  onPath = 0;
  lost = 0;
  entered = 0;
  left = 0;
  /** Balls in the box; the next one out of it has the number `firstInBox`. */
  box: number;
  firstInBox: number;

  /** Everything that can stand in the loop, and which of it stands at each place. */
  readonly equipment: Equipment;
  readonly inPlace: Int32Array;
  readonly inPlaceFrom: Float64Array;

  /** Parameters of what stands at each place. */
  readonly capacity: Float64Array;
  readonly mixed: Uint8Array;
  readonly batch: Int32Array;
  readonly startAt: Int32Array;
  readonly direct: Uint8Array;
  readonly cycleDraw: Int32Array;
  readonly travelDraw: Int32Array;
  readonly mixedDraw: Int32Array;
  readonly missChance: Int32Array;
  readonly leakChance: Int32Array;
  /** More than 0 when the causes must be looked at in every cycle: running clocks, or a strike to come. */
  readonly watch: Int32Array;
  /** 1 when a running clock depends on the basket's level. */
  readonly crowdWatch: Uint8Array;
  /** Rows of its causes in the stop table: from firstRow to before endRow. */
  readonly firstRow: Int32Array;
  readonly endRow: Int32Array;

  /** 1 for a place whose full basket holds balls back on the run-out before it. */
  readonly backsUp: Uint8Array;
  /** 1 for a place whose run-out leads to one that backs up; most balls on it. */
  readonly backedUp: Uint8Array;
  readonly holds: Float64Array;
  /** Number of the overflow chute of a place and of the chute of its lever, -1 for none; where each chute leads. */
  readonly overflowChute: Int32Array;
  readonly leverChute: Int32Array;
  readonly chuteTo: Int32Array;
  readonly chuteDraw: Int32Array;
  readonly lastChuteArrival: Float64Array;
  /** Arrival of the batch that goes down an overflow chute in this event; -1 when none has begun to. */
  overflowArrival = -1;

  readonly phase: Uint8Array;
  readonly stopped: Uint8Array;
  /** The stop that lasts was cleared with this basket above half; further spills are its backlog. */
  readonly backlog: Uint8Array;
  /** Running time left in the cycle at the beginning of the present stretch. */
  readonly cycleLeft: Float64Array;
  readonly stretchFrom: Float64Array;
  /** Row in the stop table of the cause that will strike, or that lasts. */
  readonly cause: Int32Array;
  readonly stoppedFrom: Float64Array;
  readonly waitingFrom: Float64Array;
  readonly heldUpFrom: Float64Array;
  /** Arrival of the last batch on each run-out: no batch overtakes it. */
  readonly lastArrival: Float64Array;
  /** Where the next basket backs up: balls waiting at the end of the run-out, and the first that still travels, or -1. */
  readonly waitingAtEnd: Int32Array;
  readonly firstTravelling: Int32Array;
  readonly levelFrom: Float64Array;
  /**
   * 1 for a place that runs ahead of the queue just now (see runAhead.ts). Its mechanism and the run-out before it then
   * have nothing in the queue; when its cycle ends is noted here, Infinity while it waits.
   */
  readonly ahead: Uint8Array;
  readonly cycleEnd: Float64Array;
  readonly headStart: HeadStart;

  readonly stops: StopTable;
  readonly draws: Draws;
  readonly chances: Chances;
  readonly swapDraw: Int32Array;
  readonly mendDraw: Int32Array;
  readonly leverDraw: Int32Array;
  readonly feedDraw: number;
  readonly sweepDraw: number;
  /** Places that sweeps and top-ups put balls into; -1 when there are none. */
  readonly sweepInto: number;
  readonly topUpInto: number;
  readonly lostChance: number;
  readonly topUpDraw: number;

  /**
   * Timers: one for each mechanism (cycle end, stop, notice, clearing, swap), one for each run-out, then chutes and what
   * only some modules have, then the single ones. By timer: what it is for, the place (-1 for none) or planned stop.
   */
  readonly timerRole: number[] = [];
  readonly timerOf: number[] = [];
  readonly firstRunOutTimer: number;
  readonly firstChuteTimer: number;
  readonly outlastsTimer: Int32Array;
  readonly mendedTimer: Int32Array;
  readonly leverTimer: Int32Array;
  /** By row of the stop table; -1 for causes that have no clock. */
  readonly clockTimer: Int32Array;
  readonly feedTimer: number;
  readonly dutyTimer: number;
  readonly sweepTimer: number;
  readonly sweepDoneTimer: number;
  readonly topUpTimer: number;
  readonly sampleTimer: number;
  readonly warmUpTimer: number;
  readonly firstPlannedTimer: number;

  minders = 0;
  busy = 0;
  stoppedModules = 0;
  heldUpModules = 0;
  pulledModules = 0;
  dutyStep = 0;
  /** Jobs that wait for a minder, in order of request; see crew.ts. */
  readonly jobs: number[] = [];
  /** By number from 1: the job each minder is busy with, undefined when free. */
  readonly minderJob: (number | undefined)[] = [];
  /** Number of the minder who is clearing or swapping at each place, or setting its lever; 0 for none. */
  readonly workAt: Int32Array;
  /** When the minder set out who clears a stop at each place. */
  readonly workFrom: Float64Array;
  readonly leverWork: Int32Array;
  sweepPending = false;
  topUp: number = NOTHING_DUE;
  crewFrom: number = NaN;
  pathFrom: number = NaN;
  statesFrom: number = NaN;

  /** 1 from the moment a stop is noticed, or a swap begins, until the place runs again. */
  readonly known: Uint8Array;
  /** 1 for a module that is to be pulled; times of its last stops, as many as the rule counts. */
  readonly wantedOut: Uint8Array;
  readonly lastStops: number[][];
  /** Number of what goes in at the end of the swap under way; -1 when there is none. */
  readonly goesIn: Int32Array;
  /** By spare: 1 while it stands in the loop or is about to. */
  readonly spareTaken: Uint8Array;
  readonly pulledFrom: Float64Array;
  /** 1 while a lever sends balls back. */
  readonly leverSet: Uint8Array;
  /** By module: those with a lever that watch it. */
  readonly watchers: readonly (readonly number[])[];

  /** Fewer balls on the path than this, and the box is asked for more; 0 when there is none. */
  readonly topUpBelow: number;
  /** Noted in an event and dealt with at its end: too few balls, balls spilled. */
  tooFew = false;
  spilledNow = 0;
  /** Jobs or minders have changed, and jobs are to be given out at the end of the event. */
  crewChanged = false;
  /** A loop in which something backs up. */
  readonly canLock: boolean;
  locked: { readonly at: number; readonly heldUp: Int32Array } | null = null;
  readonly log: ((incident: Incident) => void) | undefined;

  totals: Totals;
  readonly series: Series;
  readonly plan: MeasurePlan;

  constructor(
    spec: LoopSpec,
    plan: MeasurePlan,
    seed: number,
    replication: number,
    pace: Pace,
    log?: (incident: Incident) => void,
  ) {
    const n = spec.modules.length;
    const { supply } = spec;
    this.spec = spec;
    this.plan = plan;
    this.modules = n;
    this.closed = supply.kind === 'charge';
    this.counter = spec.counter;
    this.end = spec.show.seconds;

    this.placeAfter = Int32Array.from(spec.modules, (_, m) => (m + 1 < n ? m + 1 : this.closed ? 0 : -1));
    this.log = log;

    const charge = supply.kind === 'charge' ? supply.placed.reduce((sum, balls) => sum + balls, 0) : 0;
    const { sweep, topUp } = spec.crew;
    this.box = topUp?.box ?? 0;
    this.topUpBelow = topUp?.below ?? 0;
    this.firstInBox = charge;
    this.balls = new Balls(charge + this.box);
    this.baskets = new BallLists(n, this.balls);
    this.held = new BallLists(n, this.balls);
    this.runOuts = new BallLists(n, this.balls);
    this.floor = new BallLists(2, this.balls);

    const sources: SourceList = { draws: [], chances: [] };
    const draw = (place: string | null, purpose: string, time: DistributionSpec): number =>
      sources.draws.push({ place, purpose, distribution: time }) - 1;
    const { modules } = spec;
    const numbers = (number: (module: ModuleSpec, m: number) => number): Int32Array =>
      Int32Array.from(modules, number);

    const gear = new Equipment(spec, sources);
    this.equipment = gear;
    this.inPlace = numbers((_, m) => m);
    this.inPlaceFrom = new Float64Array(n);
    this.capacity = gear.capacity.slice(0, n);
    this.mixed = gear.mixed.slice(0, n);
    this.batch = gear.batch.slice(0, n);
    this.startAt = gear.startAt.slice(0, n);
    this.direct = gear.direct.slice(0, n);
    this.cycleDraw = gear.cycleDraw.slice(0, n);
    this.travelDraw = gear.travelDraw.slice(0, n);
    this.mixedDraw = gear.mixedDraw.slice(0, n);
    this.missChance = gear.missChance.slice(0, n);
    this.leakChance = gear.leakChance.slice(0, n);
    this.watch = gear.runningClocks.slice(0, n);
    this.crowdWatch = gear.crowdWatch.slice(0, n);

    this.backsUp = Uint8Array.from(modules, ({ basket }) => (basket.whenFull.kind === 'back_up' ? 1 : 0));
    const after = (m: number): WhenFullSpec | undefined =>
      (m + 1 < n || this.closed ? modules[(m + 1) % n] : undefined)?.basket.whenFull;
    this.backedUp = Uint8Array.from(modules, (_, m) => (after(m)?.kind === 'back_up' ? 1 : 0));
    this.holds = Float64Array.from(modules, (_, m) => {
      const rule = after(m);
      return rule?.kind === 'back_up' ? rule.holds : Infinity;
    });
    this.canLock = this.closed && this.backsUp.includes(1);
    const chutes: { to: number; draw: number; place: number }[] = [];
    this.overflowChute = new Int32Array(n).fill(-1);
    this.leverChute = new Int32Array(n).fill(-1);
    for (const [m, { id, basket, lever }] of modules.entries()) {
      const { whenFull } = basket;
      if (whenFull.kind === 'return')
        this.overflowChute[m] =
          chutes.push({ to: whenFull.to, draw: draw(id, 'chute', whenFull.time), place: m }) - 1;
      if (lever)
        this.leverChute[m] = chutes.push({ to: m, draw: draw(id, 'recirculate', lever.time), place: m }) - 1;
    }
    this.chutes = new BallLists(chutes.length, this.balls);
    this.chuteTo = Int32Array.from(chutes, ({ to }) => to);
    this.chuteDraw = Int32Array.from(chutes, (chute) => chute.draw);
    this.lastChuteArrival = new Float64Array(chutes.length);

    this.phase = new Uint8Array(n);
    this.stopped = new Uint8Array(n);
    this.backlog = new Uint8Array(n);
    this.cycleLeft = new Float64Array(n);
    this.stretchFrom = new Float64Array(n);
    this.cause = new Int32Array(n).fill(-1);
    this.stoppedFrom = new Float64Array(n);
    this.waitingFrom = new Float64Array(n);
    this.heldUpFrom = new Float64Array(n);
    this.lastArrival = new Float64Array(n);
    this.waitingAtEnd = new Int32Array(n);
    this.firstTravelling = new Int32Array(n).fill(-1);
    this.levelFrom = new Float64Array(n);
    this.ahead = new Uint8Array(n);
    this.cycleEnd = new Float64Array(n);
    this.headStart = new HeadStart(spec, pace);

    this.swapDraw = numbers(({ id, pull }) => (pull ? draw(id, 'swap', pull.swap) : -1));
    this.mendDraw = numbers(({ id, pull }) => (pull?.mend ? draw(id, 'mend', pull.mend) : -1));
    this.leverDraw = numbers(({ id, lever }) =>
      lever && !isZero(lever.takes) ? draw(id, 'lever', lever.takes) : -1,
    );
    this.feedDraw = supply.kind === 'feed' ? draw(null, 'feed', supply.every) : -1;
    this.sweepInto = sweep?.into ?? -1;
    this.topUpInto = topUp?.into ?? -1;
    this.sweepDraw = sweep ? draw(null, 'sweep', sweep.takes) : -1;
    this.lostChance = sweep
      ? sources.chances.push({ place: null, purpose: 'lost', probability: sweep.lost }) - 1
      : -1;
    this.topUpDraw = topUp && !isZero(topUp.takes) ? draw(null, 'top-up', topUp.takes) : -1;
    this.stops = new StopTable([...modules, ...(spec.spares ?? [])], sources);
    this.firstRow = this.stops.first.slice(0, n);
    this.endRow = this.stops.first.slice(1, n + 1);
    this.draws = new Draws(sources.draws, seed, replication);
    this.chances = new Chances(sources.chances, seed, replication);

    this.workAt = new Int32Array(n);
    this.workFrom = new Float64Array(n);
    this.leverWork = new Int32Array(n);
    this.known = new Uint8Array(n);
    this.wantedOut = new Uint8Array(n);
    this.lastStops = modules.map(() => []);
    this.goesIn = new Int32Array(n).fill(-1);
    this.spareTaken = new Uint8Array(gear.spares);
    this.pulledFrom = new Float64Array(n);
    this.leverSet = new Uint8Array(n);
    this.watchers = watchersOf(modules);

    const timer = (role: number, of: number, position: number): number => {
      this.timerRole.push(role);
      this.timerOf.push(of);
      return this.queue.addTimer(position);
    };
    const single = (position: number): number => timer(ROLES.single, -1, position);
    for (let m = 0; m < n; m++) timer(ROLES.mechanism, m, m + 1);
    this.firstRunOutTimer = n;
    for (let m = 0; m < n; m++) timer(ROLES.runOut, m, m + 1);
    this.firstChuteTimer = 2 * n;
    for (const { place } of chutes) timer(ROLES.chute, place, place + 1);
    this.outlastsTimer = numbers(({ pull }, m) =>
      pull?.outlastsSeconds === undefined ? -1 : timer(ROLES.outlasts, m, m + 1),
    );
    this.mendedTimer = numbers(({ pull }, m) => (pull?.mend ? timer(ROLES.mended, m, m + 1) : -1));
    this.leverTimer = numbers(({ lever }, m) => (lever ? timer(ROLES.lever, m, m + 1) : -1));
    this.feedTimer = single(0);
    this.dutyTimer = single(n + 1);
    this.sweepDoneTimer = single(n + 1);
    this.sweepTimer = single(n + 1);
    this.topUpTimer = single(n + 1);
    this.sampleTimer = single(n + 1);
    this.warmUpTimer = single(n + 1);
    // A spare's causes have timers too; where it stands is known only when they strike.
    this.clockTimer = Int32Array.from(this.stops.kind, (kind, row) =>
      kind === CLOCK ? timer(ROLES.clock, row, this.stops.owner[row] + 1) : -1,
    );
    this.firstPlannedTimer = this.timerRole.length;
    for (const { owner } of this.stops.planned) timer(ROLES.planned, owner, owner + 1);

    this.series = new Series(plan, n);
    this.totals = new Totals(spec.show, plan, 0, this.baskets.count, gear.count);
    // What will be a fraction begins as NaN, not as a whole number: see EventQueue.now.
    this.crewFrom = this.pathFrom = this.statesFrom = 0;
  }

  /** The moment that lies `seconds` after now, on a tick of the clock. */
  after(seconds: number): number {
    return onTick(this.queue.now + seconds);
  }
}
