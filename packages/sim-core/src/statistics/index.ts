export { meanSequence, meanSequenceAsymptotic, meanSequenceKnownSd } from './anytime/meanSequence.js';
export { mixtureRadius } from './anytime/mixtureRadius.js';
export { proportionSequence } from './anytime/proportionSequence.js';
export { nextCount, type NextCount } from './counts/nextCount.js';
export {
  plausibleInterval,
  type PlausibleMeans,
  plausibleMeans,
  shareUpTo,
} from './components/plausibleMeans.js';
export {
  shareBetween,
  type VarianceComponents,
  varianceComponents,
} from './components/varianceComponents.js';
export { jeffreysProportion } from './counts/jeffreysProportion.js';
export type { Limits } from './counts/limits.js';
export { poissonRate, type PoissonRate } from './counts/poissonRate.js';
export { type Counted, rateRatio, type RateRatio } from './counts/rateRatio.js';
export type { Difference } from './differences/difference.js';
export { equivalence, type Equivalence } from './differences/equivalence.js';
export { pairedDifference, type PairedDifference } from './differences/pairedDifference.js';
export { replicationsToDecide } from './differences/replicationsToDecide.js';
export { type DifferenceVerdict, verdictOfDifference } from './differences/verdictOfDifference.js';
export { welchDifference } from './differences/welchDifference.js';
export type { Bounds, Estimate } from './estimate.js';
export { censoredLognormalFit } from './fitting/censoredLognormalFit.js';
export { chooseFamily, type ChooseFamilyOptions, type ChosenFamily } from './fitting/chooseFamily.js';
export { cvInterval } from './fitting/cvInterval.js';
export { andersonDarling, kolmogorovSmirnov } from './fitting/edfStatistics.js';
export { exponentialFit, type ExponentialFit } from './fitting/exponentialFit.js';
export { type FamilyFit, fitFamily, type FittedFamily, fittedDistribution } from './fitting/fitFamily.js';
export { gammaFit, type GammaFit } from './fitting/gammaFit.js';
export { goodnessOfFit, type GoodnessOfFit, type GoodnessOfFitOptions } from './fitting/goodnessOfFit.js';
export { kolmogorovCdf, kolmogorovCritical, kolmogorovLimit } from './fitting/kolmogorov.js';
export type { Fit, Lifetimes } from './fitting/lifetimes.js';
export { lognormalFit, type LognormalFit } from './fitting/lognormalFit.js';
export { lognormalMean } from './fitting/lognormalMean.js';
export { normalFit, type NormalFit } from './fitting/normalFit.js';
export { type QuantilePoint, quantilePoints } from './fitting/quantilePoints.js';
export { wearCheck, type WearCheck } from './fitting/wearCheck.js';
export { weibullFit, type WeibullFit } from './fitting/weibullFit.js';
export { isotonicMeans } from './isotonicMeans.js';
export { lagOneAutocorrelation } from './lagOneAutocorrelation.js';
export { meanInterval } from './meanInterval.js';
export { meanOverShows } from './meanOverShows.js';
export { ColumnMoments } from './columnMoments.js';
export { Moments, momentsOf } from './moments.js';
export { mser5, type WarmUpCut } from './mser5.js';
export { type MtbfEstimate, mtbfInterval } from './mtbfInterval.js';
export { clopperPearson, clusteredProportion, wilsonInterval } from './proportion.js';
export { clusteredQuantile } from './clusteredQuantile.js';
export { waitingQuantile } from './waitingQuantile.js';
export { type GammaFamily, gammaPoissonFit } from './pooling/gammaPoissonFit.js';
export { type CopyCount, gammaPoissonLogLikelihood } from './pooling/gammaPoissonLikelihood.js';
export {
  type PooledRate,
  type PooledRates,
  pooledRates,
  type PooledRatesOptions,
} from './pooling/pooledRates.js';
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
export { jointRanks } from './prediction/jointRanks.js';
export { predictionBand, type PredictionBand } from './prediction/predictionBand.js';
export { eventTrend, type EventTrend, type WatchedEvents } from './trends/eventTrend.js';
export { rankTrend, type RankTrend, type Timed } from './trends/rankTrend.js';
