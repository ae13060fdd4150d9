export { basketCapacity, type BasketSize } from './basketCapacity.js';
export { MOST_BALLS, MOST_EVENTS, MOST_LAPS } from './limits.js';
export type {
  BasketSpec,
  ChargeSpec,
  CrewSpec,
  DriveSpec,
  FeedSpec,
  LoopSpec,
  ModuleSpec,
  RemedySpec,
  ShowSpec,
  StopCauseSpec,
  StopTriggerSpec,
  SweepSpec,
} from './loopSpec.js';
