import {
  buildDistribution,
  type DistributionSpec,
  type Uniform,
} from '../../../packages/sim-core/src/index.js';
import type { BatchSeen, ModuleRecord, StopSeen } from '../../../packages/sim-core/src/logs/index.js';

/** What a module is really like. */
export interface TrueModule {
  readonly cycle?: DistributionSpec;
  readonly batch?: number;
  readonly catch?: number;
  /** Running seconds from one stop to the next. */
  readonly stops?: DistributionSpec;
  /** Chance of a stop in each cycle, instead. */
  readonly perCycle?: number;
  readonly clear?: DistributionSpec;
  readonly seconds: number;
}

/**
 * An hour on the bench, straight from the parameters and not from the simulator: cycles and stops by running time, then stops
 * put between, then cut off at the end of watching.
 */
export function benchRecord(truth: TrueModule, uniform: Uniform): ModuleRecord {
  const { seconds, batch = 1, catch: caught = 1 } = truth;
  const cycle = truth.cycle === undefined ? null : buildDistribution(truth.cycle);
  const gap = truth.stops === undefined ? null : buildDistribution(truth.stops);
  const clear = truth.clear === undefined ? null : buildDistribution(truth.clear);
  const ends: { readonly at: number; readonly balls: number }[] = [];
  const strikes: number[] = [];
  if (cycle !== null) {
    let at = 0;
    while (at < seconds) {
      const long = cycle.sample(uniform);
      if (truth.perCycle !== undefined && uniform() < truth.perCycle) strikes.push(at + uniform() * long);
      at += long;
      let balls = 0;
      for (let ball = 0; ball < batch; ball++) if (uniform() < caught) balls++;
      ends.push({ at, balls });
    }
  }
  const next = (): number => gap?.sample(uniform) ?? Infinity;
  for (let at = next(); at < seconds; at += next()) strikes.push(at);
  const stops: StopSeen[] = [];
  let stood = 0;
  for (const strike of strikes) {
    const from = strike + stood;
    if (from >= seconds) break;
    const lasts = clear?.sample(uniform) ?? 0;
    stops.push({ cause: 'jam', from, cleared: from + lasts > seconds ? null : from + lasts });
    stood += lasts;
  }
  const stoodBy = (running: number): number =>
    stops.reduce((sum, stop, i) => {
      const lasts = (stop.cleared ?? seconds) - stop.from;
      return (strikes[i] ?? Infinity) < running ? sum + lasts : sum;
    }, 0);
  const batches: BatchSeen[] = ends
    .filter(({ balls }) => balls > 0)
    .map(({ at, balls }) => ({ at: at + stoodBy(at), balls }))
    .filter(({ at }) => at < seconds);
  return {
    module: 'lift',
    where: 'bench',
    watched: [{ from: 0, to: seconds }],
    batches,
    stops,
    spills: [],
  };
}
