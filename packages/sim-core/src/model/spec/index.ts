export { basketCapacity, type BasketSize } from './basketCapacity.js';
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
