import { settleLevel } from './basket.js';
import { assignJobs, changeDuty } from './crew.js';
import { CYCLE_END, DELIVERY, SAMPLE, STOP, SWEEP } from './eventClass.js';
import { scheduleDuty } from './happenNext.js';
import { type LoopState, STARTING } from './loopState.js';
import { leaveQueue } from './runAhead.js';
import { startClocks, windUp } from './strikes.js';
import { onTick } from './tick.js';
import { askForBalls } from './topUp.js';

/** Puts the balls in, sets the mechanisms going and schedules what stands in the plan; returns the balls, the box included. */
export function setUp(s: LoopState): number {
  const { queue, loop } = s;
  const { spec, stops } = loop;
  const { supply, show, crew } = spec;
  const putIn = supply.kind === 'charge' ? placeCharge(s, supply.placed) : 0;
  s.onPath = putIn;
  if (supply.kind === 'feed')
    queue.schedule(s.loop.timers.feed, onTick(supply.first ?? s.draws.draw(s.loop.feedDraw)), DELIVERY);
  for (let m = 0; m < s.loop.modules; m++) {
    if (s.startAt[m] === 0) {
      s.phase[m] = STARTING;
      s.cycleLeft[m] = onTick(s.draws.uniform(loop.equipment.phaseDraw[m]) * loop.meanCycle[m]);
    }
    queue.schedule(m, s.cycleLeft[m], CYCLE_END);
  }
  windUp(s);
  for (let m = 0; m < s.loop.modules; m++) startClocks(s, m);
  for (const [i, { time }] of stops.planned.entries())
    queue.schedule(s.loop.timers.firstPlanned + i, onTick(time), STOP);
  changeDuty(s);
  askForBalls(s);
  assignJobs(s);
  scheduleDuty(s);
  if (crew.sweep) queue.schedule(s.loop.timers.sweep, s.after(crew.sweep.everySeconds), SWEEP);
  queue.schedule(s.loop.timers.sample, s.series.nextEnd, SAMPLE);
  if (show.warmUpSeconds > 0) queue.schedule(s.loop.timers.warmUp, show.warmUpSeconds, SAMPLE);
  for (let m = 0; m < s.loop.modules; m++) leaveQueue(s, m);
  return putIn + s.box;
}

/**
 * Puts the charge into the baskets as the spec says, numbered as by a hand that goes round the loop and drops one ball
 * into each basket that is to have another, until all are placed.
 */
function placeCharge(s: LoopState, placed: readonly number[]): number {
  let ball = 0;
  const wanting = placed.flatMap((balls, m) => (balls > 0 ? [m] : []));
  for (let round = 1; wanting.length > 0; round++) {
    let still = 0;
    for (const m of wanting) {
      s.baskets.append(m, ball++);
      if (placed[m] > round) wanting[still++] = m;
    }
    wanting.length = still;
  }
  for (let m = 0; m < s.loop.modules; m++) {
    settleLevel(s, m);
    s.totals.levelRose(m, s.baskets.count[m]);
  }
  return ball;
}
