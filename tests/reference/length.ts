/**
 * Whether all runs have their full length, as in `npm run reference`; `npm test` has a part of it.
 */
export const IN_FULL: boolean = process.env['REFERENCE_IN_FULL'] === '1';

/** The usual part: standard errors are 1.8 times as large as those of the full length. */
export const SHORT = 0.3;

/** Where a variance of long tails, or something rare, would not be known well enough from less. */
export const FOR_RARE = 0.6;
export const FOR_VERY_RARE = 0.8;

/**
 * Cases that came out beyond three standard errors when the usual part was chosen, and within them with ten times as much.
 * They keep their full length: another part until one fits would be a choice by result.
 */
export const WHOLE = 1;

/** So many seconds or replications of a full number of them: all, or in `npm test` the given part. */
export function partOf(full: number, part: number = SHORT): number {
  return IN_FULL ? full : Math.round(full * part);
}
