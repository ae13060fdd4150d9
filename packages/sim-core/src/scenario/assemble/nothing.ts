import type { DistributionSpec } from '../../distributions/index.js';

/** No time at all: what needs no minder, or a run-out without length. */
export const NOTHING: DistributionSpec = { family: 'constant', value: 0 };

/** Whether a time is always nothing. */
export function isNothing(time: DistributionSpec): boolean {
  return time.family === 'constant' && time.value === 0;
}
