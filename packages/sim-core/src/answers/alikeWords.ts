import { clopperPearson, type Estimate, isRare, replicationsUntilRare } from '../statistics/index.js';
import { formatShare } from '../units/index.js';

/** Whether there is no interval because all shows had the same value, and were too few for that to be known. */
export function isTooAlike({ mean, low, high, replications }: Estimate): boolean {
  return mean !== null && low === null && high === null && replications > 1;
}

/**
 * What "no interval" and an interval without width mean, where there is one among these.
 *
 * @param what their replications are @default 'shows'
 */
export function alikeNotes(estimates: readonly Estimate[], what = 'shows'): string[] {
  const few = estimates.find((one) => isTooAlike(one));
  const many = estimates.find(
    ({ low, high, replications, confidence }) =>
      low !== null && low === high && isRare(replications, confidence),
  );
  return [
    ...(few === undefined
      ? []
      : [
          `"No interval" stands where all ${what} came out alike: of fewer than ${replicationsUntilRare(few.confidence)} that says too little of how others would.`,
        ]),
    ...(many === undefined
      ? []
      : [
          `Where all of ${many.replications} ${what} came out alike, that counts as known: for sure at most ${rareShare(many)} of ${what} come out otherwise (exact binomial limit, Clopper-Pearson).`,
        ]),
  ];
}

/** The share of shows that may be different at most, when none of so many was. */
export function rareShare({ replications, confidence }: Estimate): string {
  return formatShare(Number(clopperPearson(0, replications, confidence).high.toFixed(3)));
}
