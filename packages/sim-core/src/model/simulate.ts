import { buildDistribution } from '../distributions/index.js';
import { LimitError, SimulationError } from '../errors/index.js';
import { formatSeconds } from '../units/index.js';
import { auditBalls } from './audit.js';
import { settleLevel } from './basket.js';
import { checkSpec } from './checkSpec.js';
import { changeDuty, requestMinder } from './crew.js';
import { deliver, feed } from './delivery.js';
import { CLEARED, CYCLE_END, DELIVERY, DUTY, NOTICED, SAMPLE, STOP, SWEEP } from './eventClass.js';
import { LoopState, STARTING } from './loopState.js';
import { type LoopView, viewOf } from './loopView.js';
import { type MeasurePlan, measurePlan } from './measurePlan.js';
import { endCycle } from './mechanism.js';
import { type ReplicationResult, replicationResult } from './replicationResult.js';
import { sample, startMeasuring } from './sampling.js';
import { type LoopSpec, MOST_EVENTS } from './spec/index.js';
import { clear, plannedStop, strike } from './stops.js';
import { windUp } from './strikes.js';
import { sweepDone, sweepDue } from './sweep.js';
import { onTick } from './tick.js';

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
  const { seed, replication = 0, plan = measurePlan(spec), audit = false, observe } = options;
  checkSpec(spec);
  const s = new LoopState(spec, plan, seed, replication);
  const putIn = setUp(s);
  const view = observe && viewOf(s);
  const { queue, end } = s;
  let events = 0;
  while (queue.peek() <= end) {
    const timer = queue.next();
    happen(s, timer);
    if (++events > MOST_EVENTS)
      throw new LimitError(
        `${formatSeconds(queue.now)} into the show there have been ${MOST_EVENTS} events; shorten the show, or make what happens rarer`,
      );
    if (audit) auditBalls(s, putIn, replication);
    if (observe && view) {
      view.module = moduleOf(s, timer);
      observe(view);
    }
  }
  queue.now = end;
  auditBalls(s, putIn, replication);
  return replicationResult(s, replication, events);
}

/** Puts the balls in, sets the mechanisms going and schedules what stands in the plan; returns the balls put in. */
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
        s.draws.uniform(s.phaseDraw[m]) * buildDistribution(spec.modules[m].cycle).mean,
      );
    }
    queue.schedule(m, s.cycleLeft[m], CYCLE_END);
  }
  windUp(s);
  for (const [i, { time }] of stops.planned.entries())
    queue.schedule(s.firstPlannedTimer + i, onTick(time), STOP);
  changeDuty(s);
  scheduleDuty(s);
  if (crew.sweep) queue.schedule(s.sweepTimer, s.after(crew.sweep.everySeconds), SWEEP);
  queue.schedule(s.sampleTimer, s.series.nextEnd, SAMPLE);
  if (show.warmUpSeconds > 0) queue.schedule(s.warmUpTimer, show.warmUpSeconds, SAMPLE);
  return putIn;
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
  if (next !== undefined) s.queue.schedule(s.dutyTimer, onTick(next.fromSeconds), DUTY);
}

function happen(s: LoopState, timer: number): void {
  const n = s.modules;
  switch (s.queue.eventClass) {
    case CYCLE_END:
      return endCycle(s, timer);
    case DELIVERY:
      return timer === s.feedTimer ? feed(s) : deliver(s, timer - n);
    case STOP: {
      if (timer < n) return strike(s, timer);
      const { row, module } = s.stops.planned[timer - s.firstPlannedTimer];
      return plannedStop(s, module, row);
    }
    case NOTICED:
      return requestMinder(s, timer);
    case CLEARED:
      return clear(s, timer);
    case DUTY:
      changeDuty(s);
      return scheduleDuty(s);
    case SWEEP:
      return timer === s.sweepTimer ? sweepDue(s) : sweepDone(s);
    case SAMPLE:
      return timer === s.sampleTimer ? sample(s) : startMeasuring(s);
    default:
      throw new SimulationError(`an event of the unknown class ${s.queue.eventClass}`);
  }
}

function moduleOf(s: LoopState, timer: number): number {
  if (timer < s.modules) return timer;
  if (timer < 2 * s.modules) return timer - s.modules;
  if (timer >= s.firstPlannedTimer) return s.stops.planned[timer - s.firstPlannedTimer].module;
  return timer === s.feedTimer ? 0 : -1;
}
