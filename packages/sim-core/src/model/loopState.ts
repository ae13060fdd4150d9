import { EventQueue } from '../kernel/index.js';
import { BallLists } from './ballLists.js';
import { Balls } from './balls.js';
import { Chances } from './chances.js';
import { Draws } from './draws.js';
import { HeadStart, type Pace } from './headStart.js';
import type { Incident } from './incident.js';
import type { MeasurePlan } from './measurePlan.js';
import type { PreparedLoop } from './preparedLoop.js';
import { Progress } from './progress.js';
import { Series } from './series.js';
import { onTick } from './tick.js';
import { Totals } from './totals.js';

/** What a mechanism is doing, apart from being stopped. */
export const WAITING = 0; // demand drive, too few balls
export const STARTING = 1; // continuous drive, before its first pick
export const CYCLING = 2;
export const HELD_UP = 3; // the cycle is over, and what it holds does not fit onto the run-out
export const BETWEEN = 4; // within the event in which one cycle has ended and the next is to begin

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
  /** What no show changes. */
  readonly loop: PreparedLoop;

  readonly queue: EventQueue = new EventQueue();
  readonly progress: Progress = new Progress();
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

  /** Number of the equipment that stands at each place, and since when. */
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

  readonly lastChuteArrival: Float64Array;
  /** Arrival of the batch that goes down an overflow chute in this event; -1 when none has begun to. */
  overflowArrival: number = NaN;

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

  /** By row of the stop table: what is left of the exponential hazard budget until the next stop (per cycle and per ball). */
  readonly budget: Float64Array;
  /**
   * Running seconds until it strikes: of the clock (running), or in the present cycle (Infinity if not). Clocks: seconds
   * left when they were last halted.
   */
  readonly strikeIn: Float64Array;
  /** How fast a running clock runs: 1, or crowdedTimes while crowded. */
  readonly speed: Float64Array;
  readonly draws: Draws;
  readonly chances: Chances;

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

  /** Noted in an event and dealt with at its end: too few balls, balls spilled. */
  tooFew = false;
  spilledNow = 0;
  /** Jobs or minders have changed, and jobs are to be given out at the end of the event. */
  crewChanged = false;
  locked: { readonly at: number; readonly heldUp: Int32Array } | null = null;
  readonly log: ((incident: Incident) => void) | undefined;

  totals: Totals;
  readonly series: Series;
  readonly plan: MeasurePlan;

  constructor(
    loop: PreparedLoop,
    plan: MeasurePlan,
    seed: number,
    replication: number,
    pace: Pace,
    log?: (incident: Incident) => void,
  ) {
    const { modules: n, equipment, stops, timers } = loop;
    this.loop = loop;
    this.plan = plan;
    this.log = log;
    for (const position of timers.position) this.queue.addTimer(position);

    this.box = loop.box;
    this.firstInBox = loop.charge;
    this.balls = new Balls(loop.charge + loop.box);
    this.baskets = new BallLists(n, this.balls);
    this.held = new BallLists(n, this.balls);
    this.runOuts = new BallLists(n, this.balls);
    this.chutes = new BallLists(loop.chuteTo.length, this.balls);
    this.floor = new BallLists(2, this.balls);

    this.inPlace = Int32Array.from({ length: n }, (_, m) => m);
    this.inPlaceFrom = new Float64Array(n);
    this.capacity = equipment.capacity.slice(0, n);
    this.mixed = equipment.mixed.slice(0, n);
    this.batch = equipment.batch.slice(0, n);
    this.startAt = equipment.startAt.slice(0, n);
    this.direct = equipment.direct.slice(0, n);
    this.cycleDraw = equipment.cycleDraw.slice(0, n);
    this.travelDraw = equipment.travelDraw.slice(0, n);
    this.mixedDraw = equipment.mixedDraw.slice(0, n);
    this.missChance = equipment.missChance.slice(0, n);
    this.leakChance = equipment.leakChance.slice(0, n);
    this.watch = equipment.runningClocks.slice(0, n);
    this.crowdWatch = equipment.crowdWatch.slice(0, n);
    this.firstRow = stops.first.slice(0, n);
    this.endRow = stops.first.slice(1, n + 1);
    this.lastChuteArrival = new Float64Array(loop.chuteTo.length);

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
    this.headStart = new HeadStart(loop.headStart, pace);

    const rows = stops.kind.length;
    this.budget = new Float64Array(rows).fill(Infinity);
    this.strikeIn = new Float64Array(rows).fill(Infinity);
    this.speed = new Float64Array(rows).fill(1);
    this.draws = new Draws(loop.draws, seed, replication);
    this.chances = new Chances(loop.chances, seed, replication);

    this.workAt = new Int32Array(n);
    this.workFrom = new Float64Array(n);
    this.leverWork = new Int32Array(n);
    this.known = new Uint8Array(n);
    this.wantedOut = new Uint8Array(n);
    this.lastStops = Array.from({ length: n }, () => []);
    this.goesIn = new Int32Array(n).fill(-1);
    this.spareTaken = new Uint8Array(equipment.spares);
    this.pulledFrom = new Float64Array(n);
    this.leverSet = new Uint8Array(n);

    this.series = new Series(plan, n);
    this.totals = new Totals(loop.spec.show, plan, 0, this.baskets.count, equipment.count);
    // What will be a fraction begins as NaN, not as a whole number: see EventQueue.now.
    this.crewFrom = this.pathFrom = this.statesFrom = 0;
    this.overflowArrival = -1;
  }

  /** The moment that lies `seconds` after now, on a tick of the clock. */
  after(seconds: number): number {
    return onTick(this.queue.now + seconds);
  }
}
