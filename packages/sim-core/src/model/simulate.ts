import { buildDistribution } from '../distributions/index.js';
import { SimulationError } from '../errors/index.js';
import { auditBalls } from './audit.js';
import { settleLevel } from './basket.js';
import { checkSpec } from './checkSpec.js';
import { assignJobs, changeDuty } from './crew.js';
import { deliver, deliverChute, feed } from './delivery.js';
import { CLEARED, CYCLE_END, DELIVERY, HANDS, NOTICED, SAMPLE, STOP, SWEEP } from './eventClass.js';
import type { Incident } from './incident.js';
import { leverDone } from './levers.js';
import { checkLock } from './locked.js';
import { LoopState, ROLES, STARTING } from './loopState.js';
import { type LoopView, viewOf } from './loopView.js';
import { type MeasurePlan, measurePlan } from './measurePlan.js';
import { endCycle } from './mechanism.js';
import { mended, swapDone, wantOut } from './pulls.js';
import { type ReplicationResult, replicationResult } from './replicationResult.js';
import { leaveQueue, runAhead } from './runAhead.js';
import { sample, startMeasuring } from './sampling.js';
import type { LoopSpec } from './spec/index.js';
import { clear, clockStop, notice, plannedStop, strike } from './stops.js';
import { startClocks, windUp } from './strikes.js';
import { sweepDone, sweepDue } from './sweep.js';
import { onTick } from './tick.js';
import { askForBalls, topUpDue } from './topUp.js';

/** How one replication is to be run. */
export interface SimulateOptions {
  /** Whole number from 0 to 2^53 - 1. There is no default: luck must be chosen, never left to chance. */
  readonly seed: number;
  /** Number of the replication, from 0. @default 0 */
  readonly replication?: number;
  /** The measuring grid. @default measurePlan(spec) */
  readonly plan?: MeasurePlan;
  /** Checks after every event that no ball has appeared or vanished; slow. @default false */
  readonly audit?: boolean;
  /** Called after every event, for tests, traces and teaching; slow. */
  readonly observe?: (view: LoopView) => void;
  /** Called for everything worth a line in a log, as it happens. */
  readonly log?: (incident: Incident) => void;
}

/**
 * Simulates one replication: one whole show.
 *
 * The same spec, seed and replication give the same result to the last bit, on any machine and in any thread.
 *
 * @throws ParameterError when the spec or an option cannot be used
 * @throws LimitError when the show has more events, balls or laps than can be simulated
 * @throws SimulationError when a rule that must always hold did not
 * @example
 * simulate(exampleLoop, { seed: 1 }).measuredSeconds // => 3600
 */
export function simulate(spec: LoopSpec, options: SimulateOptions): ReplicationResult {
  const { seed, replication = 0, plan = measurePlan(spec), audit = false, observe, log } = options;
  checkSpec(spec);
  const s = new LoopState(spec, plan, seed, replication, audit || observe !== undefined, log);
  const putIn = setUp(s);
  const view = observe && viewOf(s);
  const { queue, end, headStart, progress } = s;
  for (;;) {
    const next = queue.peek();
    if (headStart.leastUntil < Math.min(next, end)) {
      runAhead(s, next);
      continue;
    }
    if (next > end) break;
    const timer = queue.next();
    happen(s, timer);
    if (s.tooFew) {
      s.tooFew = false;
      askForBalls(s);
    }
    if (s.crewChanged) assignJobs(s);
    // What has come to stand, or to the end of its way, may have been the last that moved.
    if (s.canLock && s.heldUpModules > 0) checkLock(s);
    progress.count(1, queue.now);
    if (timer < s.firstChuteTimer) leaveQueue(s, placeOf(s, timer));
    if (audit) auditBalls(s, putIn, replication);
    if (observe && view) {
      view.module = moduleOf(s, timer);
      observe(view);
    }
  }
  queue.now = end;
  auditBalls(s, putIn, replication);
  return replicationResult(s, replication, progress.events);
}

/** Place at which an event of a mechanism or a run-out happens; -1 for the tray at the end of a chain. */
function placeOf(s: LoopState, timer: number): number {
  return timer < s.firstRunOutTimer ? timer : s.placeAfter[timer - s.firstRunOutTimer];
}

/** Puts the balls in, sets the mechanisms going and schedules what stands in the plan; returns the balls, the box included. */
function setUp(s: LoopState): number {
  const { spec, queue, stops } = s;
  const { supply, show, crew } = spec;
  const putIn = supply.kind === 'charge' ? placeCharge(s, supply.placed) : 0;
  s.onPath = putIn;
  if (supply.kind === 'feed')
    queue.schedule(s.feedTimer, onTick(supply.first ?? s.draws.draw(s.feedDraw)), DELIVERY);
  for (let m = 0; m < s.modules; m++) {
    if (s.startAt[m] === 0) {
      s.phase[m] = STARTING;
      s.cycleLeft[m] = onTick(
        s.draws.uniform(s.equipment.phaseDraw[m]) * buildDistribution(spec.modules[m].cycle).mean,
      );
    }
    queue.schedule(m, s.cycleLeft[m], CYCLE_END);
  }
  windUp(s);
  for (let m = 0; m < s.modules; m++) startClocks(s, m);
  for (const [i, { time }] of stops.planned.entries())
    queue.schedule(s.firstPlannedTimer + i, onTick(time), STOP);
  changeDuty(s);
  askForBalls(s);
  assignJobs(s);
  scheduleDuty(s);
  if (crew.sweep) queue.schedule(s.sweepTimer, s.after(crew.sweep.everySeconds), SWEEP);
  queue.schedule(s.sampleTimer, s.series.nextEnd, SAMPLE);
  if (show.warmUpSeconds > 0) queue.schedule(s.warmUpTimer, show.warmUpSeconds, SAMPLE);
  for (let m = 0; m < s.modules; m++) leaveQueue(s, m);
  return putIn + s.box;
}

/**
 * Puts the charge into the baskets as the spec says, numbered as by a hand that goes round the loop and drops one ball
 * into each basket that is to have another, until all are placed.
 */
function placeCharge(s: LoopState, placed: readonly number[]): number {
  let ball = 0;
  let wanting = placed.flatMap((balls, m) => (balls > 0 ? [m] : []));
  for (let round = 1; wanting.length > 0; round++) {
    for (const m of wanting) s.baskets.append(m, ball++);
    wanting = wanting.filter((m) => placed[m] > round);
  }
  for (let m = 0; m < s.modules; m++) {
    settleLevel(s, m);
    s.totals.levelRose(m, s.baskets.count[m]);
  }
  return ball;
}

function scheduleDuty(s: LoopState): void {
  const next = s.spec.crew.duty[s.dutyStep];
  if (next !== undefined) s.queue.schedule(s.dutyTimer, onTick(next.fromSeconds), HANDS);
}

function happen(s: LoopState, timer: number): void {
  const n = s.modules;
  switch (s.queue.eventClass) {
    case CYCLE_END:
      return endCycle(s, timer);
    case DELIVERY:
      if (timer < 2 * n) return deliver(s, timer - n);
      return timer === s.feedTimer ? feed(s) : deliverChute(s, timer - s.firstChuteTimer);
    case STOP:
      return timer < n ? strike(s, timer) : stopByTime(s, timer);
    case NOTICED:
      return notice(s, timer);
    case CLEARED:
      return clear(s, timer);
    case HANDS:
      return hands(s, timer);
    case SWEEP:
      if (timer === s.topUpTimer) return topUpDue(s);
      return timer === s.sweepTimer ? sweepDue(s) : sweepDone(s);
    case SAMPLE:
      return timer === s.sampleTimer ? sample(s) : startMeasuring(s);
    default:
      throw new SimulationError(`an event of the unknown class ${s.queue.eventClass}`);
  }
}

function stopByTime(s: LoopState, timer: number): void {
  const of = s.timerOf[timer];
  if (s.timerRole[timer] === ROLES.clock) clockStop(s, of);
  else plannedStop(s, of, s.stops.planned[timer - s.firstPlannedTimer].row);
}

function hands(s: LoopState, timer: number): void {
  const m = s.timerOf[timer];
  switch (s.timerRole[timer]) {
    case ROLES.mechanism:
      return swapDone(s, m);
    case ROLES.outlasts:
      return wantOut(s, m);
    case ROLES.mended:
      return mended(s, m);
    case ROLES.lever:
      return leverDone(s, m);
    default:
      changeDuty(s);
      return scheduleDuty(s);
  }
}

/** Place of the event that has just happened, -1 when it belongs to none. */
function moduleOf(s: LoopState, timer: number): number {
  if (timer === s.feedTimer) return 0;
  const of = s.timerOf[timer];
  // A clock may have struck at a place where a spare stands.
  return s.timerRole[timer] === ROLES.clock ? s.inPlace.indexOf(s.stops.owner[of]) : of;
}
