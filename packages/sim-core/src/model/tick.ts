/** Ticks of the simulation's clock in one second. */
const TICKS_PER_SECOND = 1_000_000_000;

/**
 * The tick of the simulation's clock nearest to a time, seconds. The clock ticks in nanoseconds.
 *
 * Sums of decimal fractions miss each other by rounding: ten times 0.9 s is not 9 s in binary numbers, and which of two
 * events happens first would be decided by noise. On ticks they are the same instant, and the order of the model decides.
 * Exact up to 4 000 000 s (46 days), where the numbers of a double still lie closer together than a tick.
 *
 * @example
 * [0.1 + 0.2 === 0.3, onTick(0.1 + 0.2) === onTick(0.3)] // => [false, true]
 */
export function onTick(seconds: number): number {
  return Math.round(seconds * TICKS_PER_SECOND) / TICKS_PER_SECOND;
}

/** The last tick at or before a time: for a moment that must lie before the end of something. */
export function tickBefore(seconds: number): number {
  return Math.floor(seconds * TICKS_PER_SECOND) / TICKS_PER_SECOND;
}
