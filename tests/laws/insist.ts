/**
 * Throws in these words when something does not hold. For what is asked after each of millions of events: there `expect`
 * takes longer than the show.
 */
export function insist(holds: boolean, words: () => string): void {
  if (!holds) throw new Error(words());
}
