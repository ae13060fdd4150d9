export { meanSequence, meanSequenceAsymptotic, meanSequenceKnownSd } from './anytime/meanSequence.js';
export { mixtureRadius } from './anytime/mixtureRadius.js';
export { proportionSequence } from './anytime/proportionSequence.js';
export type { Difference } from './differences/difference.js';
export { equivalence, type Equivalence } from './differences/equivalence.js';
export { pairedDifference, type PairedDifference } from './differences/pairedDifference.js';
export { replicationsToDecide } from './differences/replicationsToDecide.js';
export { type DifferenceVerdict, verdictOfDifference } from './differences/verdictOfDifference.js';
export { welchDifference } from './differences/welchDifference.js';
export type { Bounds, Estimate } from './estimate.js';
export { exponentialFit, type ExponentialFit } from './fitting/exponentialFit.js';
export { kolmogorovCdf, kolmogorovCritical, kolmogorovLimit } from './fitting/kolmogorov.js';
export type { Fit, Lifetimes } from './fitting/lifetimes.js';
export { lognormalFit, type LognormalFit } from './fitting/lognormalFit.js';
export { weibullFit, type WeibullFit } from './fitting/weibullFit.js';
export { isotonicMeans } from './isotonicMeans.js';
export { lagOneAutocorrelation } from './lagOneAutocorrelation.js';
export { meanInterval } from './meanInterval.js';
export { Moments, momentsOf } from './moments.js';
export { mser5, type WarmUpCut } from './mser5.js';
export { type MtbfEstimate, mtbfInterval } from './mtbfInterval.js';
export { clopperPearson, clusteredProportion, wilsonInterval } from './proportion.js';
export { clusteredQuantile } from './clusteredQuantile.js';
export { waitingQuantile } from './waitingQuantile.js';
export {
  medianInterval,
  quantileInterval,
  type QuantileRanks,
  quantileRanks,
  valuesToBoundQuantile,
} from './quantileInterval.js';
export { areAlike, isRare, ofAlike, RARE, replicationsUntilRare } from './rare.js';
export { clumpedRateInterval, eventRateInterval } from './rateInterval.js';
export { type SampleSummary, sampleSummary } from './sampleSummary.js';
export { dudewiczDalalConstant } from './selection/dudewiczDalalConstant.js';
export { KimNelson, kimNelson, type KimNelsonOptions } from './selection/kimNelson.js';
export { kimNelsonEta } from './selection/kimNelsonEta.js';
export { rinottConstant } from './selection/rinottConstant.js';
export { type FirstStage, rinottSecondStage } from './selection/rinottSecondStage.js';
export { subsetIndependent, subsetPaired } from './selection/subsetSelection.js';
