/*
 * The public names of this package, and nothing else. Folders export more to each other than is public.
 */
export {
  buildDistribution,
  constant,
  type Distribution,
  type DistributionFamily,
  type DistributionSpec,
  empirical,
  erlang,
  exponential,
  gamma,
  lognormal,
  normalCutAtZero,
  triangular,
  uniformDistribution,
  weibull,
} from './distributions/index.js';
export {
  describeProblem,
  InputError,
  LimitError,
  ParameterError,
  type Problem,
  type ProblemCode,
  SimulationError,
} from './errors/index.js';
export {
  type Availability,
  ballsLeftAfterLeaks,
  expectedStops,
  fallSeconds,
  floodSeconds,
  moduleAvailability,
  type ModuleRoughCut,
  type RoughCut,
  roughCut,
  stopSurge,
  TYPE_1,
  type1Departures,
} from './estimates/index.js';
export {
  type ModuleEstimates,
  type OverflowRisk,
  replicate,
  type ReplicateOptions,
  type ReplicateOutcome,
  type RunEstimates,
  type RunResult,
  runResultSchema,
  type SpillsByCause,
  toRunResult,
  VERSION,
} from './experiments/index.js';
export {
  advice,
  estimatePhrase,
  headline,
  intervalPhrase,
  type Kind,
  KINDS,
  meanPhrase,
  shows,
} from './findings/index.js';
export { EventQueue, runUntil } from './kernel/index.js';
export {
  type LoopView,
  type MeasurePlan,
  measurePlan,
  PLACES,
  type ReplicationResult,
  simulate,
  type SimulateOptions,
} from './model/index.js';
export {
  basketCapacity,
  type BasketSize,
  type BasketSpec,
  type ChargeSpec,
  type CrewSpec,
  type DriveSpec,
  type FeedSpec,
  type LoopSpec,
  type ModuleSpec,
  type RemedySpec,
  type ShowSpec,
  type StopCauseSpec,
  type StopTriggerSpec,
  type SweepSpec,
} from './model/spec/index.js';
export type { Uniform } from './numerics/index.js';
export { GENERATOR, stream, type StreamAddress, streamKey } from './random/index.js';
export {
  loadScenarioFile,
  MOST_BYTES,
  parseScenario,
  type Scenario,
  scenarioSchema,
} from './scenario/index.js';
export {
  type Bounds,
  clopperPearson,
  clumpedRateInterval,
  clusteredProportion,
  type Estimate,
  eventRateInterval,
  meanInterval,
  Moments,
  sampleSummary,
  type SampleSummary,
  wilsonInterval,
} from './statistics/index.js';
export {
  type Dimension,
  formatClock,
  formatNumber,
  formatSeconds,
  formatShare,
  parseClock,
  type ParsedQuantity,
  parseQuantity,
} from './units/index.js';
