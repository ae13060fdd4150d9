/**
 * Where the normal mixture is tightest: the x = n rho^2 at which (1 + 1/x) ln((1 + x) / alpha^2) is smallest, the root of
 * x = ln(1 + x) + 2 ln(1 / alpha).
 *
 * By Newton's method from above, where x - ln(1 + x) is convex and every step stays above the root.
 */
export function tightest(alpha: number): number {
  const right = -2 * Math.log(alpha);
  // ln(1 + x) < sqrt(x), so the root of x - sqrt(x) = right lies beyond.
  let x = (0.5 + Math.sqrt(0.25 + right)) ** 2;
  for (;;) {
    const next = x - ((x - Math.log1p(x) - right) * (1 + x)) / x;
    if (!(next < x)) return x;
    x = next;
  }
}
