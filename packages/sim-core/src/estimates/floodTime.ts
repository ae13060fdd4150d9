import { requireParameter } from '../errors/index.js';

/**
 * Seconds until a basket runs over when its module stops now and balls keep coming: room / inflow (fluid, exact when
 * balls come evenly).
 *
 * @param options.capacity balls the basket holds
 * @param options.level balls in it now
 * @param options.inflowBps balls per second that keep coming
 * @returns Infinity when none come or the basket cannot overflow
 * @throws ParameterError when a number is negative or NaN
 * @example
 * floodSeconds({ capacity: 150, level: 30, inflowBps: 0.8 }) // => 150
 */
export function floodSeconds(options: {
  readonly capacity: number;
  readonly level: number;
  readonly inflowBps: number;
}): number {
  for (const [name, value] of Object.entries(options)) {
    requireParameter(value >= 0, 'floodSeconds', name, value, 'a number from 0');
  }
  const { capacity, level, inflowBps } = options;
  if (inflowBps === 0 || capacity === Infinity) return Infinity;
  return Math.max(0, capacity - level) / inflowBps;
}

/**
 * What a stop does to one basket, with balls coming evenly: when it runs over, how many balls fall, and how long after
 * the restart the level is back where it was (fluid limit).
 *
 * With h = room, r = inflow, d = length of the stop, mu = capacity of the module: full after h / r; spilled
 * max(0, r d - h); calm again min(h, r d) / (mu - r) after the restart.
 *
 * @param options.stopSeconds length of the stop
 * @param options.capacityBps what the module passes when it runs again
 * @throws ParameterError when a number is negative or NaN
 * @example
 * stopSurge({ capacity: 30, level: 6, inflowBps: 1, stopSeconds: 40, capacityBps: 1.25 }) // => { fullAfterSeconds: 24, spilledBalls: 16, calmAfterSeconds: 96 }
 */
export function stopSurge(options: {
  readonly capacity: number;
  readonly level: number;
  readonly inflowBps: number;
  readonly stopSeconds: number;
  readonly capacityBps: number;
}): { readonly fullAfterSeconds: number; readonly spilledBalls: number; readonly calmAfterSeconds: number } {
  const { capacity, level, inflowBps, stopSeconds, capacityBps } = options;
  requireParameter(stopSeconds >= 0, 'stopSurge', 'stopSeconds', stopSeconds, 'a number from 0');
  requireParameter(capacityBps >= 0, 'stopSurge', 'capacityBps', capacityBps, 'a number from 0');
  const room = Math.max(0, capacity - level);
  const arrived = inflowBps * stopSeconds;
  return {
    fullAfterSeconds: floodSeconds({ capacity, level, inflowBps }),
    spilledBalls: Math.max(0, arrived - room),
    calmAfterSeconds:
      capacityBps > inflowBps ? Math.min(room, arrived) / (capacityBps - inflowBps) : Infinity,
  };
}
