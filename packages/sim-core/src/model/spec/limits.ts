/*
 * What one replication may take before it is broken off. Far above any table: a loop of fifty modules makes 1.4 million
 * events in eight hours.
 */

/** Events; at five to fifteen millions a second this is minutes. */
export const MOST_EVENTS = 2_000_000_000;
/** Balls at once, on the floor included; about 40 bytes each. */
export const MOST_BALLS = 4_194_304;
/** Laps kept for exact quantiles, 8 bytes each. */
export const MOST_LAPS = 16_777_216;
