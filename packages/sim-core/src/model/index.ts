export { BranchingShow, type WatchedSpills } from './branchingShow.js';
export { checkSpec } from './checkSpec.js';
export type { Incident, IncidentKind } from './incident.js';
export { type Doing, type LoopView, PLAIN_CHUTE } from './loopView.js';
export { type MeasurePlan, measurePlan } from './measurePlan.js';
export { PreparedLoop } from './preparedLoop.js';
export type { ReplicationResult } from './replicationResult.js';
export { PLACES } from './series.js';
export { simulate, type SimulateOptions } from './simulate.js';
