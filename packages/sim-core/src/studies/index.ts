export { journalHead, journalLine, journalSeed, readJournal } from './journal.js';
export { ShardDone, Study, type StudyOptions, StudyStopped } from './study.js';
export { type System, system } from './system.js';
export { ValueTable } from './valueTable.js';
export {
  type CompareOptions,
  compare,
  type Comparison,
  type MeasureDifference,
  measureDifference,
  type Verdict,
} from './compare.js';
export { type MendFirst, mendFirst, type MendFirstOptions, type MendGain } from './mendFirst.js';
export { fullHours, measureEstimate, type MeasureContext } from './measureEstimate.js';
export {
  type Spares,
  type SpareSet,
  spares,
  type SpareRival,
  type SparesOptions,
  withSpares,
} from './spares.js';
export { withStopRate } from './stopRate.js';
export { defaultMargin, sweep, type SweepOptions } from './sweep.js';
export type { Criterion } from './sweep/enough.js';
export { around, type Grid, tidy } from './sweep/grid.js';
export type {
  MeasureEstimate,
  Recommendation,
  Sweep,
  SweepStep,
  SweepValue,
  ValueVerdict,
} from './sweep/sweepResult.js';
export type { Varied, VariedThing } from './sweep/varied.js';
