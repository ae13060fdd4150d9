import type { Estimate } from '../statistics/index.js';

/** An estimate as it is, or zero for certain when the scenario rules out what it counts; without an interval as it is. */
export function unlessImpossible(estimate: Estimate, possible: boolean): Estimate {
  return possible || estimate.low === null ? estimate : { ...estimate, high: 0 };
}
