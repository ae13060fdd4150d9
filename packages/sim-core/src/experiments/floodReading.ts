import { type PreparedLoop, simulate } from '../model/index.js';
import { stream } from '../random/index.js';
import { type ImaginedStop, ImaginedStops } from './imaginedStops.js';
import type { FloodReading } from './reading.js';

/** Instead of seconds: no flood was seen by the end of the show. */
export const NOT_SEEN = -1;

/**
 * How soon each basket would flood in one show, seen from some moments of it.
 *
 * @returns moment by moment and module by module: seconds until the first ball finds no room, {@link NOT_SEEN} when none
 *   was seen, NaN when the module stood still or was not in the loop at that moment
 */
export function readFlood(
  loop: PreparedLoop,
  reading: FloodReading,
  seed: number,
  replication: number,
): readonly number[] {
  const moments = momentsOf(reading, seed, replication);
  const stops = new ImaginedStops(loop.spec);
  const found: (ImaginedStop | undefined)[] = [];
  let next = 0;
  const beginUntil = (now: number): void => {
    for (; (moments[next] ?? Infinity) < now; next++) {
      for (let m = 0; m < loop.modules; m++)
        found.push(stops.runs(m) ? stops.begin(m, moments[next] ?? now) : undefined);
    }
  };
  simulate(loop, {
    seed,
    replication,
    observe: (view) => {
      beginUntil(view.now);
      stops.observe(view);
    },
  });
  beginUntil(Infinity);
  return found.map((stop) => (stop === undefined ? NaN : stop.after === Infinity ? NOT_SEEN : stop.after));
}

/** One moment at a uniform random point of each of so many equal parts. */
function momentsOf(
  { fromSeconds, toSeconds, moments }: FloodReading,
  seed: number,
  replication: number,
): number[] {
  const luck = stream({ seed, replication, place: null, purpose: 'moments' });
  const part = (toSeconds - fromSeconds) / moments;
  return Array.from({ length: moments }, (_, i) => fromSeconds + (i + luck()) * part);
}
