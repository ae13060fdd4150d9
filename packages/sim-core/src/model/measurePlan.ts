import { buildDistribution } from '../distributions/index.js';
import { requireParameter } from '../errors/index.js';
import { type LoopSpec, sessionsOf } from './spec/index.js';

/** How finely a run is measured: the grid of the time series and of the loop-time histogram. */
export interface MeasurePlan {
  /** Ends of the time slices, seconds after the opening, rising; the last is the end of the show. */
  readonly sliceEnds: readonly number[];
  /** Width of one bar of the loop-time histogram, seconds. */
  readonly lapBinSeconds: number;
  /** Number of bars; the last one also holds everything beyond. */
  readonly lapBins: number;
}

/** Most time slices: enough for a picture of the day. */
const SLICES = 48;

const ROUND_SECONDS = [
  1, 2, 5, 10, 15, 20, 30, 60, 120, 300, 600, 900, 1200, 1800, 3600, 7200, 14400, 28800, 86400,
];

/**
 * A measuring grid that suits a scenario: about 48 time slices of a round length, none across the end of a session, and bars about a hundredth of the
 * time a ball would need for a lap in the queues it starts with.
 *
 * It depends on the scenario alone, so that replications, workers and days agree on it.
 *
 * @throws ParameterError when the show has no length
 * @example
 * measurePlan(exampleLoop).sliceEnds.length // => 30
 */
export function measurePlan(spec: LoopSpec): MeasurePlan {
  const { seconds } = spec.show;
  requireParameter(
    seconds > 0 && seconds < Infinity,
    'measurePlan',
    'show.seconds',
    seconds,
    'a finite number above 0',
  );
  const slice = ROUND_SECONDS.find((width) => width * SLICES >= seconds) ?? seconds / SLICES;
  const sliceEnds = sessionsOf(spec.show).flatMap(({ fromSeconds, toSeconds }) => {
    const slices = Math.max(1, Math.ceil((toSeconds - fromSeconds) / slice - 1e-9));
    return Array.from({ length: slices }, (_, k) =>
      k === slices - 1 ? toSeconds : fromSeconds + (k + 1) * slice,
    );
  });
  const lap = expectedLapSeconds(spec);
  const bin = roundUp(lap / 100);
  return { sliceEnds, lapBinSeconds: bin, lapBins: 1000 };
}

/** A rough lap: time on the way and in mechanisms, or the charge through the slowest module if that is longer. */
function expectedLapSeconds(spec: LoopSpec): number {
  let way = 0;
  let slowest = 0;
  for (const module of spec.modules) {
    const cycle = buildDistribution(module.cycle).mean;
    way += 1.5 * cycle + buildDistribution(module.travel).mean;
    slowest = Math.max(slowest, cycle / (module.batch * module.catch));
  }
  const charge =
    spec.supply.kind === 'charge' ? spec.supply.placed.reduce((sum, balls) => sum + balls, 0) : 0;
  return Math.max(way, charge * slowest, 1e-3);
}

/** The next of 1, 2, 5, 10, 20, 50, ... times a power of ten. */
function roundUp(x: number): number {
  const power = 10 ** Math.floor(Math.log10(x));
  const factor = [1, 2, 5, 10].find((f) => f * power >= x * (1 - 1e-12)) ?? 10;
  // Dividing keeps 0.2 and the like at the nearest double, which 2 * 0.1 does not for all of them.
  return power >= 1 ? factor * power : factor / Math.round(1 / power);
}
