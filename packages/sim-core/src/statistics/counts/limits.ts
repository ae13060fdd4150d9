/** Two limits of a quantity, without its estimate. */
export interface Limits {
  readonly low: number;
  readonly high: number;
}
