import { advance } from './advance.js';
import { auditBalls } from './audit.js';
import type { Incident } from './incident.js';
import { LoopState } from './loopState.js';
import { type LoopView, viewOf } from './loopView.js';
import type { MeasurePlan } from './measurePlan.js';
import { PreparedLoop } from './preparedLoop.js';
import { type ReplicationResult, replicationResult } from './replicationResult.js';
import { setUp } from './setUp.js';
import type { LoopSpec } from './spec/index.js';
import { ROLES } from './timers.js';

/** How one replication is to be run. */
export interface SimulateOptions {
  /** Whole number from 0 to 2^53 - 1. There is no default: luck must be chosen, never left to chance. */
  readonly seed: number;
  /** Number of the replication, from 0. @default 0 */
  readonly replication?: number;
  /** The measuring grid. @default that of the prepared loop, or measurePlan(spec) */
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
 * @param loop from a {@link PreparedLoop} many shows of the same loop are simulated a little faster
 * @throws ParameterError when the spec or an option cannot be used
 * @throws LimitError when the show has more events, balls or laps than can be simulated
 * @throws SimulationError when a rule that must always hold did not
 * @example
 * simulate(exampleLoop, { seed: 1 }).measuredSeconds // => 3600
 */
export function simulate(loop: LoopSpec | PreparedLoop, options: SimulateOptions): ReplicationResult {
  const { seed, replication = 0, audit = false, observe, log } = options;
  const prepared = loop instanceof PreparedLoop ? loop : new PreparedLoop(loop, options.plan);
  const plan = options.plan ?? prepared.plan;
  const s = new LoopState(prepared, plan, seed, replication, { inStep: audit || observe ? 'all' : [] }, log);
  const putIn = setUp(s);
  const view = observe && viewOf(s);
  if (!audit && !observe) runToEnd(s);
  else
    for (let timer = advance(s); timer >= 0; timer = advance(s)) {
      if (audit) auditBalls(s, putIn, replication);
      if (observe && view) {
        view.module = moduleOf(s, timer);
        observe(view);
      }
    }
  s.queue.now = s.loop.end;
  auditBalls(s, putIn, replication);
  return replicationResult(s, replication, s.progress.events);
}

/** A function of its own, so that it can be compiled while it runs: what comes after it has not been seen by then. */
function runToEnd(s: LoopState): void {
  while (advance(s) >= 0) continue;
}

/** Place of the event that has just happened, -1 when it belongs to none. */
function moduleOf(s: LoopState, timer: number): number {
  if (timer === s.loop.timers.feed) return 0;
  const of = s.loop.timers.of[timer];
  // A clock may have struck at a place where a spare stands.
  return s.loop.timers.role[timer] === ROLES.clock ? s.inPlace.indexOf(s.loop.stops.owner[of]) : of;
}
