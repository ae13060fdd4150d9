export { normalQuantile } from './normalQuantile.js';
export {
  betaQuantile,
  gammaCdf,
  gammaQuantile,
  logGamma,
  normalCdf,
  studentTQuantile,
} from './specialFunctions.js';
export type { Uniform } from './uniform.js';
