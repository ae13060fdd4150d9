export type { Bounds, Estimate } from './estimate.js';
export { meanInterval } from './meanInterval.js';
export { Moments } from './moments.js';
export { clopperPearson, clusteredProportion, wilsonInterval } from './proportion.js';
export { clumpedRateInterval, eventRateInterval } from './rateInterval.js';
export { type SampleSummary, sampleSummary } from './sampleSummary.js';
