import { onFloor, settleLevel, settlePath } from './basket.js';
import { settleCrew } from './crew.js';
import { SAMPLE } from './eventClass.js';
import type { LoopState } from './loopState.js';
import { Totals } from './totals.js';

/** Books everything that has been going on up to now. */
export function settleAll(s: LoopState): void {
  for (let m = 0; m < s.loop.modules; m++) settleLevel(s, m);
  settlePath(s);
  settleCrew(s);
  settleStates(s);
}

/** Call before a module becomes held up, is let go, pulled or put back: books the time with as many as there are. */
export function settleStates(s: LoopState): void {
  const seconds = s.queue.now - s.statesFrom;
  if (seconds > 0) {
    s.series.addStates(s.heldUpModules * seconds, s.pulledModules * seconds);
    s.statesFrom = s.queue.now;
  }
}

/** The end of a time slice. */
export function sample(s: LoopState): void {
  settleAll(s);
  s.series.close([
    total(s.baskets.count),
    total(s.held.count),
    total(s.runOuts.count),
    total(s.chutes.count),
    onFloor(s),
    s.box,
    s.lost,
  ]);
  if (s.series.nextEnd <= s.loop.end) s.queue.schedule(s.loop.timers.sample, s.series.nextEnd, SAMPLE);
}

/** The end of the warm-up: totals start over. */
export function startMeasuring(s: LoopState): void {
  settleAll(s);
  const { now } = s.queue;
  s.totals = new Totals(s.loop.spec.show, s.plan, now, s.baskets.count, s.loop.equipment.count);
}

function total(counts: Int32Array): number {
  return counts.reduce((sum, balls) => sum + balls, 0);
}
