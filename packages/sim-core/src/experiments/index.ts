export { isCertain } from './certain.js';
export { HOUSE_RULE_NAMES, type HouseRule, houseRules } from './houseRule.js';
export { MEASURES, type Measure, measureIndex } from './measures.js';
export { MODEL_REVISION } from './modelRevision.js';
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
export { LAP_QUANTILES, type LoggedShow, toLoggedShow } from './loggedReading.js';
export type { FloodReading, LoggedReading, Reading, SplitReading, StopReading } from './reading.js';
export { RAN_OVER, readSplit, type SplitStart, toSplitStart } from './splitReading.js';
export { NOT_SEEN, readFlood } from './floodReading.js';
export { leadSeconds, readStop, stoppedLoop } from './stopReading.js';
export { downstreamOf, leversFor, LOOK_SECONDS } from './stopRun.js';
export { type StopShow, toStopShow } from './stopShow.js';
export { rowFits } from './rowFits.js';
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
export { type Doubt, type ShowSource, StudyPool, type StudyTask } from './studyPool.js';
export { toRunResult } from './toRunResult.js';
export { VERSION } from './version.js';
