export { basketCapacity, type BasketSize } from './basketCapacity.js';
export type { CauseCounted, ModuleCounted } from './counted.js';
export { fullHours, publicSeconds, sessionsOf } from './publicTime.js';
export { MOST_BALLS, MOST_EVENTS, MOST_LAPS } from './limits.js';
export type {
  BasketSpec,
  ChargeSpec,
  CrewSpec,
  DriveSpec,
  FeedSpec,
  LeverSpec,
  LoopSpec,
  ModuleSpec,
  PullSpec,
  RemedySpec,
  SessionSpec,
  ShowSpec,
  StopCauseSpec,
  StopTriggerSpec,
  SweepSpec,
  TopUpSpec,
  WhenFullSpec,
} from './loopSpec.js';
