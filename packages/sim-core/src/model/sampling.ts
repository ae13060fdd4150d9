import { onFloor, settleLevel, settlePath } from './basket.js';
import { settleCrew } from './crew.js';
import { SAMPLE } from './eventClass.js';
import type { LoopState } from './loopState.js';
import { Totals } from './totals.js';

/** Books everything that has been going on up to now. */
export function settleAll(s: LoopState): void {
  for (let m = 0; m < s.modules; m++) settleLevel(s, m);
  settlePath(s);
  settleCrew(s);
}

/** The end of a time slice. */
export function sample(s: LoopState): void {
  settleAll(s);
  s.series.close([total(s.baskets.count), total(s.held.count), total(s.runOuts.count), onFloor(s), s.lost]);
  if (s.series.nextEnd <= s.end) s.queue.schedule(s.sampleTimer, s.series.nextEnd, SAMPLE);
}

/** The end of the warm-up: totals start over. */
export function startMeasuring(s: LoopState): void {
  settleAll(s);
  const { now } = s.queue;
  s.totals = new Totals(s.plan, now, s.end - now, s.baskets.count);
}

function total(counts: Int32Array): number {
  return counts.reduce((sum, balls) => sum + balls, 0);
}
