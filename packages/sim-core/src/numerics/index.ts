export { cholesky, solveByRoot, solveLower } from './cholesky.js';
export { normalQuantile } from './normalQuantile.js';
export {
  betaQuantile,
  binomialCdf,
  chiSquareCdf,
  digamma,
  gammaCdf,
  gammaQuantile,
  logGamma,
  normalCdf,
  studentTCdf,
  studentTQuantile,
  trigamma,
} from './specialFunctions.js';
export type { Uniform } from './uniform.js';
