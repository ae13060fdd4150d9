export { journalHead, journalLine, journalSeed, readJournal } from './journal.js';
export { ShardDone, type ShowOf, Study, type StudyOptions, StudyStopped } from './study.js';
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
export {
  type BenchGain,
  type BenchNext,
  countedModules,
  type JudgedInDoubt,
  type LookedInDoubt,
  lookInDoubt,
  type LookInDoubtOptions,
  type RuleDoubt,
} from './doubt/index.js';
export { measureEstimate } from './measureEstimate.js';
export { type MendFirst, mendFirst, type MendFirstOptions, type MendGain } from './mendFirst.js';
export {
  type NarrowedMeasure,
  type Narrowness,
  type UntilNarrow,
  untilNarrow,
  type UntilNarrowOptions,
} from './untilNarrow.js';
export { type BestOf, type Contender, selectBest, type SelectBestOptions } from './selectBest.js';
export { type BestOrder, bestOrder, type BestOrderOptions, type JudgedMove } from './bestOrder.js';
export {
  applyStep,
  isAllowed,
  movedCount,
  type OrderProblem,
  type OrderStep,
  stepsFrom,
} from './orderSteps.js';
export {
  type HouseJudgement,
  type HouseVerdict,
  inline,
  type Inline,
  type InlineCase,
  type InlineOptions,
  type InlinePlace,
  type JudgedLoop,
  judge,
  type LimitValue,
  type PlaceGain,
  type PlaceSearch,
  type PlaceSeen,
  plainChuteFor,
  type RuleCheck,
  type RuleVerdict,
  type StopsPoint,
  type ToleratedStops,
  usedUp,
} from './inline/index.js';
export { surelyBroken } from './inline/ruleCheck.js';
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
export { howRare, type HowRare, type HowRareOptions, watchable } from './howRare.js';
export { nextLevels, type SplitLevel } from './splitLevels.js';
export type { MeasureContext } from './measureEstimate.js';
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
export {
  type LoggedFigure,
  match,
  type Match,
  type Matched,
  type MatchLog,
  type MatchOptions,
} from './match.js';
