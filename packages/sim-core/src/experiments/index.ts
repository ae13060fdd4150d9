export { HOUSE_RULE_NAMES, type HouseRule, houseRules } from './houseRule.js';
export { MEASURES, type Measure, measureIndex } from './measures.js';
export type { Reading } from './reading.js';
export { replicate, type ReplicateOptions, type ReplicateOutcome } from './replicate.js';
export { type PlacePossibilities, type Possibilities, possibilities } from './possibilities.js';
export type {
  LockEstimates,
  ModuleEstimates,
  OverflowRisk,
  RunEstimates,
  RunResult,
  SpareEstimates,
  SpillsByCause,
} from './runResult.js';
export { runResultSchema } from './runResultSchema.js';
export { RunSummary } from './runSummary.js';
export { showsHere } from './showsHere.js';
export { showValues, valueIndex } from './showValues.js';
export {
  estimate,
  ESTIMATE_SCHEMA,
  flag,
  group,
  listOf,
  number,
  numberOrNull,
  type Schema,
  text,
  whole,
} from './schemaPieces.js';
export { type ShowSource, StudyPool, type StudyTask } from './studyPool.js';
export { toRunResult } from './toRunResult.js';
export { VERSION } from './version.js';
