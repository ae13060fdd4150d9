export { type SampleSummary, sampleSummary } from './sampleSummary.js';
