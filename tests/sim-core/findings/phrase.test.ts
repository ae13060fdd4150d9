import { describe, expect, it } from 'vitest';
import { estimatePhrase, KINDS } from '../../../packages/sim-core/src/findings/index.js';

const of = (mean: number, low: number, high: number) => ({
  mean,
  low,
  high,
  confidence: 0.95,
  replications: 40,
});

/** Expected texts by pencil, from the rule for digits beside `decimalsOf`. */
describe('digits of a figure with its interval', () => {
  it.each([
    // Half the interval is 118: tenths would be less than a hundredth of it.
    [of(2.7, 0.3, 236.7), KINDS.perHour, '3 per hour (95 % interval: 0 to 237 per hour)'],
    [of(2e-9, 0, 0.30684969), KINDS.share, '0.0 % (95 % interval: 0.0 to 30.7 %)'],
    // Four digits, when they leave a width; five when they do not.
    [of(2691.1, 2690.3, 2691.6), KINDS.perHour, '2691 per hour (95 % interval: 2690 to 2692 per hour)'],
    [of(2691, 2690.8, 2691.2), KINDS.perHour, '2691.0 per hour (95 % interval: 2690.8 to 2691.2 per hour)'],
    [of(1.1105, 1.109, 1.112), KINDS.bps, '1.111 bps (95 % interval: 1.109 to 1.112 bps)'],
    // Times known to no better than ten minutes.
    [of(2235, 0, 10800), KINDS.time, '37 min (95 % interval: 0 s to 3 h)'],
    [of(60, 50, 70), KINDS.time, '1 min (95 % interval: 50 s to 1 min 10 s)'],
  ] as const)('%j', (estimate, kind, text) => {
    expect(estimatePhrase(estimate, kind)).toBe(text);
  });
});
