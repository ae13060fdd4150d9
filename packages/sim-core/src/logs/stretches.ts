import type { Stretch } from './moduleRecord.js';

/**
 * What is left of some stretches of time without others.
 *
 * @param from by rising time, without overlap
 * @param away in any order; they may overlap
 * @example
 * without([{ from: 0, to: 10 }, { from: 20, to: 30 }], [{ from: 8, to: 22 }]) // => [{ from: 0, to: 8 }, { from: 22, to: 30 }]
 */
export function without(from: readonly Stretch[], away: readonly Stretch[]): Stretch[] {
  let left: readonly Stretch[] = from;
  for (const hole of away) {
    left = left.flatMap((one) => {
      if (hole.to <= one.from || hole.from >= one.to) return [one];
      const parts = [
        { from: one.from, to: Math.min(one.to, hole.from) },
        { from: Math.max(one.from, hole.to), to: one.to },
      ];
      return parts.filter((part) => part.from < part.to);
    });
  }
  return [...left];
}
