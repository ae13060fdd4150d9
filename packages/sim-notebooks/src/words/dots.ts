/** What the marks of a chart of dots mean. */
export function dots(replications: number): string {
  return replications > 1 ? 'Dots are estimates, bars their intervals.' : 'One show gives no intervals.';
}
