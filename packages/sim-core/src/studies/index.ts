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
export { settledAfter } from './settled.js';
export { type StopAction } from './stopActions.js';
export { withLevels } from './typedLevels.js';
export {
  type BasketFlood,
  type TimesOver,
  whenItStops,
  type WhenItStops,
  type WhenItStopsOptions,
} from './whenItStops.js';
export {
  type FirstAid,
  floodCard,
  type FloodCard,
  type FloodCardOptions,
  type FloodLine,
} from './floodCard.js';
