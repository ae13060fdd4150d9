import { LOOK_SECONDS } from '../experiments/index.js';

/** Looks in a row at which it must be calm: one minute. */
const LOOKS = Math.round(60 / LOOK_SECONDS) + 1;
/** In an undisturbed loop it is calm at so many of all looks. */
const CALM_SHARE = 0.95;

/**
 * Up to how many balls above the usual levels of their baskets a loop is calm: as many as there are at 95 of 100 looks at
 * shows in which nothing special happens.
 *
 * One number for the whole loop, and not a band for each basket: of fifty baskets, two or three are always outside a band
 * of 95 %, and the loop would never be calm.
 *
 * @param shows balls above the usual levels at each look, show by show
 * @example
 * calmUpTo([Array.from({ length: 100 }, (_, i) => i)]) // => 94
 */
export function calmUpTo(shows: readonly (readonly number[])[]): number {
  const looks = Float64Array.from(shows.flat()).sort();
  return looks[Math.ceil(CALM_SHARE * looks.length - 1e-9) - 1] ?? 0;
}

/**
 * When a loop is calm again: the first look from which on, for a whole minute, no more balls stand above the usual levels
 * than in an undisturbed loop.
 *
 * @param above balls above the usual levels at each look, every 5 s
 * @param from not before this, seconds after the first look
 * @param upTo as {@link calmUpTo}
 * @returns seconds after the first look; Infinity when it was not calm again
 * @example
 * calmAgainAt([0, 9, 9, ...new Array(20).fill(1)], 5, 2) // => 15
 */
export function calmAgainAt(above: readonly number[], from: number, upTo: number): number {
  let calm = 0;
  for (let look = Math.ceil(from / LOOK_SECONDS); look < above.length; look++) {
    calm = (above[look] ?? 0) <= upTo ? calm + 1 : 0;
    if (calm === LOOKS) return (look - LOOKS + 1) * LOOK_SECONDS;
  }
  return Infinity;
}
