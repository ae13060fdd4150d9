export { replicate, type ReplicateOptions, type ReplicateOutcome } from './replicate.js';
export type { ModuleEstimates, OverflowRisk, RunEstimates, RunResult, SpillsByCause } from './runResult.js';
export { runResultSchema } from './runResultSchema.js';
export { RunSummary } from './runSummary.js';
export { toRunResult } from './toRunResult.js';
export { VERSION } from './version.js';
