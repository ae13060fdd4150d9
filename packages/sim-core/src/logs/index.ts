export type { BallsSeen, BatchSeen, ModuleRecord, StopSeen, Stretch } from './moduleRecord.js';
