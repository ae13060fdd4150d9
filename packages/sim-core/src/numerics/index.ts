export { cholesky, solveByRoot, solveLower } from './cholesky.js';
export { normalQuantile } from './normalQuantile.js';
export {
  betaQuantile,
  binomialCdf,
  gammaCdf,
  gammaQuantile,
  logGamma,
  normalCdf,
  studentTCdf,
  studentTQuantile,
} from './specialFunctions.js';
export type { Uniform } from './uniform.js';
