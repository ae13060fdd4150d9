/*
 * Remarks for the table of checks: how a published number is put to the test where its own estimate would be biased.
 */

/** A spread: a sample's standard deviation is biased, the mean square about a known mean is not. */
export function squareAbout(mean: number): string {
  return `mean square about the published mean ${short(mean)}, unbiased: the square of the published spread`;
}

/** A quantile: a sample's quantile is biased, the share beyond a known one is not. */
export function beyond(quantile: number, share: number): string {
  return `share beyond the published quantile ${short(quantile)}, unbiased: must be ${share}`;
}

function short(value: number): number {
  return Number(value.toPrecision(6));
}
