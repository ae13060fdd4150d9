import { requireParameter } from '../errors/index.js';
import { gammaQuantile } from '../numerics/index.js';
import type { Estimate } from './estimate.js';
import { meanInterval } from './meanInterval.js';
import type { Moments } from './moments.js';
import { clopperPearson } from './proportion.js';

/** Fewer events, or fewer shows with events, than this are too few for Student's t: counts are too skewed. */
const FEW = 30;

/**
 * A rate of single, independent events (stops, leaks) per hour, over replications.
 *
 * With 30 events or more Student's t interval, cut off at zero. With fewer the exact limits of a Poisson count c over all
 * hours H: low = Q(alpha/2, c) / H, high = Q(1 - alpha/2, c + 1) / H with Q the gamma quantile (Garwood 1936, Biometrika
 * 28, 437-442, from memory).
 *
 * @param rates events per hour, one value for each replication
 * @param hours hours in each replication
 * @throws ParameterError when the confidence is out of range
 * @example
 * const rates = new Moments();
 * for (let i = 0; i < 10; i++) rates.add(0);
 * eventRateInterval(rates, 6, 0.95).high.toFixed(4) // => '0.0615'
 */
export function eventRateInterval(rates: Moments, hours: number, confidence: number): Estimate {
  const estimate = meanInterval(rates, confidence, { min: 0 });
  const allHours = hours * rates.count;
  const events = rates.mean * allHours;
  if (rates.count < 2 || !(events < FEW)) return estimate;
  const tail = (1 - confidence) / 2;
  return {
    ...estimate,
    low: events > 0 ? gammaQuantile(tail, events) / allHours : 0,
    high: gammaQuantile(1 - tail, events + 1) / allHours,
  };
}

/**
 * A rate of balls that fall many at a time (spills, drops) per hour, over replications.
 *
 * When 30 replications or more saw any, Student's t interval, cut off at zero. When fewer did, the values are far too
 * skewed for that; then the rate is taken as P x S with P the share of replications that saw any, S the mean rate in these,
 * and the limits are those of P (Clopper-Pearson) times those of S (exact if S varies exponentially: 2 k S / chi-square with
 * 2 k degrees of freedom), each at 1 - alpha/2, so that the whole is at least 1 - alpha (Bonferroni). When none saw any,
 * nothing is known of S and there is no upper limit: `high` is null, and the chance of a spill says what can be said.
 *
 * @param rates balls per hour, one value for each replication
 * @param seen in how many replications the rate was above zero
 * @throws ParameterError when the confidence is out of range or `seen` is not a count up to the replications
 * @example
 * const rates = new Moments();
 * for (let i = 0; i < 10; i++) rates.add(0);
 * clumpedRateInterval(rates, 0, 0.95).high // => null
 */
export function clumpedRateInterval(rates: Moments, seen: number, confidence: number): Estimate {
  requireParameter(
    seen >= 0 && seen <= rates.count,
    'clumpedRateInterval',
    'seen',
    seen,
    `from 0 to ${rates.count}`,
  );
  const estimate = meanInterval(rates, confidence, { min: 0 });
  if (rates.count < 2 || seen >= FEW || seen === rates.count) return estimate;
  if (seen === 0) return { ...estimate, low: 0, high: null };
  const each = (1 + confidence) / 2;
  const share = clopperPearson(seen, rates.count, each);
  const size = (rates.mean * rates.count) / seen;
  const tail = (1 - each) / 2;
  return {
    ...estimate,
    low: (share.low * seen * size) / gammaQuantile(1 - tail, seen),
    high: (share.high * seen * size) / gammaQuantile(tail, seen),
  };
}
