import { EventQueue } from '../kernel/index.js';
import { BallLists } from './ballLists.js';
import { Balls } from './balls.js';
import { Chances } from './chances.js';
import { Draws } from './draws.js';
import type { MeasurePlan } from './measurePlan.js';
import { Series } from './series.js';
import type { LoopSpec } from './spec/index.js';
import { type SourceList, StopTable } from './stopTable.js';
import { onTick } from './tick.js';
import { Totals } from './totals.js';

/** What a mechanism is doing, apart from being stopped. */
export const WAITING = 0; // demand drive, too few balls
export const STARTING = 1; // continuous drive, before its first pick
export const CYCLING = 2;

/** Lists of balls on the floor: not looked for yet, and found but without room in the basket. */
export const FALLEN = 0;
export const FOUND = 1;

/**
 * The whole state of one replication. Modules are numbered from 0 in loop order; everything by module is a typed array,
 * so that an event touches a few numbers and allocates nothing. The functions that change it stand beside this file, one
 * file for each part of the table: mechanism, run-out, basket, stops, crew, sweep, feed.
 */
export class LoopState {
  readonly spec: LoopSpec;
  readonly modules: number;
  /** True for a closed loop, false for an open chain. */
  readonly closed: boolean;
  readonly counter: number;
  readonly end: number;

  readonly queue: EventQueue = new EventQueue();
  readonly balls: Balls;
  readonly baskets: BallLists;
  readonly held: BallLists;
  readonly runOuts: BallLists;
  readonly floor: BallLists;
  /** Fallen balls that nobody will pick up: in a chain without sweeping they are only counted. */
  floorForgotten = 0;
  onPath = 0;
  lost = 0;
  entered = 0;
  left = 0;

  readonly capacity: Float64Array;
  readonly mixed: Uint8Array;
  readonly batch: Int32Array;
  /** Balls that must wait before a cycle starts; 0 for a continuous drive. */
  readonly startAt: Int32Array;

  readonly phase: Uint8Array;
  readonly stopped: Uint8Array;
  /** The stop that lasts was cleared with this basket above half; further spills are its backlog. */
  readonly backlog: Uint8Array;
  /** Running time left in the cycle at the beginning of the present stretch. */
  readonly cycleLeft: Float64Array;
  readonly stretchFrom: Float64Array;
  /** Row in the stop table of the cause that will strike, or that lasts. */
  readonly cause: Int32Array;
  /** More than 0 when the module's causes must be looked at in every cycle: running clocks, or a strike to come. */
  readonly watch: Int32Array;
  /** 1 when a running clock depends on the basket's level. */
  readonly crowdWatch: Uint8Array;
  readonly stoppedFrom: Float64Array;
  readonly waitingFrom: Float64Array;
  /** Arrival of the last batch on each run-out: no batch overtakes it. */
  readonly lastArrival: Float64Array;
  readonly levelFrom: Float64Array;

  readonly stops: StopTable;
  readonly draws: Draws;
  readonly chances: Chances;
  readonly cycleDraw: Int32Array;
  readonly travelDraw: Int32Array;
  readonly phaseDraw: Int32Array;
  readonly mixedDraw: Int32Array;
  readonly missChance: Int32Array;
  readonly leakChance: Int32Array;
  readonly feedDraw: number;
  readonly sweepDraw: number;
  readonly lostChance: number;

  /** Timers: one for each mechanism (cycle end, stop, notice, clearing), one for each run-out, then the single ones. */
  readonly firstRunOutTimer: number;
  readonly feedTimer: number;
  readonly dutyTimer: number;
  readonly sweepTimer: number;
  readonly sweepDoneTimer: number;
  readonly sampleTimer: number;
  readonly warmUpTimer: number;
  readonly firstPlannedTimer: number;

  minders = 0;
  busy = 0;
  stoppedModules = 0;
  dutyStep = 0;
  /** Jobs that wait for a minder, in order of request: a module to clear, or SWEEP_JOB. */
  readonly jobs: number[] = [];
  sweepPending = false;
  crewFrom = 0;
  pathFrom = 0;

  totals: Totals;
  readonly series: Series;
  readonly plan: MeasurePlan;

  constructor(spec: LoopSpec, plan: MeasurePlan, seed: number, replication: number) {
    const n = spec.modules.length;
    const { supply } = spec;
    this.spec = spec;
    this.plan = plan;
    this.modules = n;
    this.closed = supply.kind === 'charge';
    this.counter = spec.counter;
    this.end = spec.show.seconds;

    const charge = supply.kind === 'charge' ? supply.placed.reduce((sum, balls) => sum + balls, 0) : 0;
    this.balls = new Balls(charge);
    this.baskets = new BallLists(n, this.balls);
    this.held = new BallLists(n, this.balls);
    this.runOuts = new BallLists(n, this.balls);
    this.floor = new BallLists(2, this.balls);

    this.capacity = Float64Array.from(spec.modules, (module) => module.basket.capacity);
    this.mixed = Uint8Array.from(spec.modules, (module) => (module.basket.order === 'mixed' ? 1 : 0));
    this.batch = Int32Array.from(spec.modules, (module) => module.batch);
    this.startAt = Int32Array.from(spec.modules, ({ drive }) =>
      drive.kind === 'demand' ? drive.startAt : 0,
    );

    this.phase = new Uint8Array(n);
    this.stopped = new Uint8Array(n);
    this.backlog = new Uint8Array(n);
    this.cycleLeft = new Float64Array(n);
    this.stretchFrom = new Float64Array(n);
    this.cause = new Int32Array(n).fill(-1);
    this.stoppedFrom = new Float64Array(n);
    this.waitingFrom = new Float64Array(n);
    this.lastArrival = new Float64Array(n);
    this.levelFrom = new Float64Array(n);

    const sources: SourceList = { draws: [], chances: [] };
    const { draws, chances } = sources;
    const indexes = (index: (m: number) => number): Int32Array =>
      Int32Array.from(spec.modules, (_, m) => index(m));
    const module = (m: number): LoopSpec['modules'][number] => spec.modules[m];
    const draw = (m: number, purpose: string, distribution?: LoopSpec['modules'][number]['cycle']): number =>
      draws.push({ place: module(m).id, purpose, ...(distribution && { distribution }) }) - 1;
    const chance = (m: number, purpose: string, probability: number): number =>
      chances.push({ place: module(m).id, purpose, probability }) - 1;
    this.cycleDraw = indexes((m) => draw(m, 'cycle', module(m).cycle));
    this.travelDraw = indexes((m) => draw(m, 'travel', module(m).travel));
    this.phaseDraw = indexes((m) => (this.startAt[m] > 0 ? -1 : draw(m, 'phase')));
    this.mixedDraw = indexes((m) => (this.mixed[m] === 0 ? -1 : draw(m, 'mixed')));
    this.missChance = indexes((m) => (module(m).catch === 1 ? -1 : chance(m, 'catch', 1 - module(m).catch)));
    this.leakChance = indexes((m) => (module(m).leak === 0 ? -1 : chance(m, 'leak', module(m).leak)));
    this.feedDraw =
      supply.kind === 'feed'
        ? draws.push({ place: null, purpose: 'feed', distribution: supply.every }) - 1
        : -1;
    const { sweep } = spec.crew;
    this.sweepDraw = sweep
      ? draws.push({ place: null, purpose: 'sweep', distribution: sweep.takes }) - 1
      : -1;
    this.lostChance = sweep
      ? chances.push({ place: null, purpose: 'lost', probability: sweep.lost }) - 1
      : -1;
    this.stops = new StopTable(spec, sources);
    this.watch = indexes((m) => module(m).stops.filter(({ trigger }) => trigger.kind === 'running').length);
    this.crowdWatch = Uint8Array.from(spec.modules, ({ stops }) =>
      stops.some(({ trigger, crowded }) => trigger.kind === 'running' && crowded !== undefined) ? 1 : 0,
    );
    this.draws = new Draws(draws, seed, replication);
    this.chances = new Chances(chances, seed, replication);

    const { queue } = this;
    for (let m = 0; m < n; m++) queue.addTimer(m + 1);
    this.firstRunOutTimer = n;
    for (let m = 0; m < n; m++) queue.addTimer(m + 1);
    this.feedTimer = queue.addTimer(0);
    this.dutyTimer = queue.addTimer(n + 1);
    this.sweepDoneTimer = queue.addTimer(n + 1);
    this.sweepTimer = queue.addTimer(n + 1);
    this.sampleTimer = queue.addTimer(n + 1);
    this.warmUpTimer = queue.addTimer(n + 1);
    this.firstPlannedTimer = this.warmUpTimer + 1;
    for (const { module: m } of this.stops.planned) queue.addTimer(m + 1);

    this.series = new Series(plan, n);
    this.totals = new Totals(plan, 0, this.end, this.baskets.count);
  }

  /** The moment that lies `seconds` after now, on a tick of the clock. */
  after(seconds: number): number {
    return onTick(this.queue.now + seconds);
  }
}
