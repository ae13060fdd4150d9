import { SimulationError } from '../errors/index.js';
import { onFloor } from './basket.js';
import type { LoopState } from './loopState.js';

/**
 * Checks that no ball has appeared or vanished: balls in baskets, mechanisms, run-outs and chutes, on the floor, in the box and lost are as
 * many as were put in (the box included), plus those from the feed, less those in the tray.
 *
 * @throws SimulationError when the count is wrong, a basket is overfull or a mechanism holds more than a batch
 */
export function auditBalls(s: LoopState, putIn: number, replication: number): void {
  let found = onFloor(s) + s.lost + s.left + s.box;
  let onPath = s.chutes.count.reduce((sum, balls) => sum + balls, 0);
  for (let m = 0; m < s.loop.modules; m++) {
    const id = s.loop.spec.modules[m].id;
    if (s.baskets.count[m] > s.capacity[m]) {
      throw new SimulationError(
        `${s.baskets.count[m]} balls in the basket of ${id}, which holds ${s.capacity[m]}`,
        {
          replication,
        },
      );
    }
    if (s.held.count[m] > s.batch[m]) {
      throw new SimulationError(`${s.held.count[m]} balls in the mechanism of ${id}, batch ${s.batch[m]}`, {
        replication,
      });
    }
    onPath += s.baskets.count[m] + s.held.count[m] + s.runOuts.count[m];
  }
  found += onPath;
  if (found !== putIn + s.entered || onPath !== s.onPath) {
    throw new SimulationError(
      `at ${s.queue.now} s there are ${found} balls in all places (${onPath} on the path, booked ${s.onPath}), ` +
        `but ${putIn + s.entered} came in`,
      { replication },
    );
  }
}
