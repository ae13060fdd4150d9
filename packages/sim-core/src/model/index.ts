export { checkSpec } from './checkSpec.js';
export type { LoopView } from './loopView.js';
export { type MeasurePlan, measurePlan } from './measurePlan.js';
export type { ReplicationResult } from './replicationResult.js';
export { PLACES } from './series.js';
export { simulate, type SimulateOptions } from './simulate.js';
