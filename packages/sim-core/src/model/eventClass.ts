/*
 * Classes of events: what happens first when several fall on the same instant. Within a class, by position in the loop.
 */

/** A stop is cleared; a minder who cleared it is free again. */
export const CLEARED = 0;
/** A batch arrives in a basket; the feed counts as standing before the first module. */
export const DELIVERY = 1;
/** A cycle ends: release, then the next pick. */
export const CYCLE_END = 2;
/** A stop begins. */
export const STOP = 3;
/** A stop has been noticed and a minder is asked for. */
export const NOTICED = 4;
/** The crew's hands: a swap is done, a stop outlasts its limit, a module is mended, a lever set, the duty changes. */
export const HANDS = 5;
/** A sweep is done or due; balls come from the box. */
export const SWEEP = 6;
/** Samples are taken; the warm-up ends. */
export const SAMPLE = 7;
