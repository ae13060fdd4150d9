/** A basket stands as full as usual up to the level that it is at or below so much of the time. */
const USUAL_SHARE = 0.95;

/**
 * The usual level of each basket: what it was at or below at 95 of 100 looks.
 *
 * @param looks the levels of all baskets at each look
 */
export function usualLevels(looks: readonly Int32Array[]): number[] {
  const baskets = looks[0]?.length ?? 0;
  const rank = Math.ceil(USUAL_SHARE * looks.length) - 1;
  return Array.from(
    { length: baskets },
    (_, m) => looks.map((levels) => levels[m] ?? 0).toSorted((a, b) => a - b)[rank] ?? 0,
  );
}

/** At each look, the balls that stand above the usual levels of their baskets. */
export function ballsAbove(looks: readonly Int32Array[], usual: readonly number[]): number[] {
  return looks.map((levels) =>
    levels.reduce((sum, level, m) => sum + Math.max(0, level - (usual[m] ?? 0)), 0),
  );
}
