/** The values that something is tried with when nobody says. */
export interface Grid {
  /** Rising. */
  readonly values: readonly number[];
  /** From one to the next where the grid goes on beyond its ends. */
  readonly step: number;
  /** Nothing below this makes sense. */
  readonly min: number;
  /** Only whole numbers. */
  readonly whole: boolean;
  /** Just these values: nothing between them and nothing beyond. */
  readonly fixed: boolean;
}

/** Decimal fractions as people write them: 0.3 and not 0.30000000000000004. */
export function tidy(value: number): number {
  return Number(value.toPrecision(12));
}

const ROUND = [1, 2, 2.5, 5, 10];

/**
 * The smallest round number (1, 2, 2.5 or 5 with zeros) that is not below a number above 0; of whole ones 1 at least.
 *
 * @example
 * [niceStep(23.4, true), niceStep(2.1, true), niceStep(0.013, false)] // => [25, 5, 0.02]
 */
export function niceStep(size: number, whole: boolean): number {
  if (whole && size <= 1) return 1;
  const power = 10 ** Math.floor(Math.log10(size));
  const found = ROUND.map((digit) => tidy(digit * power)).find(
    (step) => step >= size * (1 - 1e-9) && (!whole || Number.isInteger(step)),
  );
  return found ?? tidy(10 * power);
}

/** Values between two, on round numbers, so that there are about so many steps from one to the other; both ends included. */
export function between(a: number, b: number, whole: boolean, parts = 6): number[] {
  const [low, high] = a < b ? [a, b] : [b, a];
  if (low === high) return [low];
  const step = niceStep((high - low) / parts, whole);
  const inner: number[] = [];
  for (let k = Math.floor(low / step) + 1; tidy(k * step) < high; k++) {
    const value = tidy(k * step);
    // Not a hair's breadth beside an end.
    if (value - low >= step / 2 && high - value >= step / 2) inner.push(value);
  }
  return [low, ...inner, high];
}

/** The next value beyond the upper end, each time twice as far; or below the lower end, step by step. Null at the limit. */
export function beyond(
  grid: Pick<Grid, 'step' | 'min'>,
  end: number,
  side: 1 | -1,
  round: number,
): number | null {
  if (side === 1) return tidy(end + grid.step * 2 ** round);
  const value = tidy(end - grid.step);
  return value >= grid.min - 1e-12 ? value : null;
}

/**
 * So many steps of a tenth below and above a value, the step rounded to one digit: 690 with 5 below and 3 above gives 340,
 * 410 ... 900.
 *
 * @example
 * around(40, { below: 2, above: 1, min: 1, whole: true }).values // => [32, 36, 40, 44]
 */
export function around(
  value: number,
  options: { readonly below: number; readonly above: number; readonly min: number; readonly whole: boolean },
): Grid {
  const { below, above, min, whole } = options;
  const rough = Number((Math.abs(value) / 10).toPrecision(1));
  const step = rough === 0 ? 1 : whole ? Math.max(1, Math.round(rough)) : rough;
  const values = Array.from({ length: below + above + 1 }, (_, i) => tidy(value + (i - below) * step));
  return { values: values.filter((one) => one >= min), step, min, whole, fixed: false };
}
