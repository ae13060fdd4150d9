export type { BallsSeen, BatchSeen, ModuleRecord, StopSeen, Stretch } from './moduleRecord.js';
export { LOG_COLUMNS, type LogColumn } from './logColumns.js';
export { HEAD_KEYS, type HeadKey } from './logHead.js';
export { describeLogProblem, type LogFault, type LogProblem } from './logProblem.js';
export { LOG_WORDS, type LogWord, type LogWordMeaning } from './logWords.js';
export type { KnownModule } from './knownModule.js';
export { type LogFileRead, type LogSource, type ReadLog, readLog, type ReadLogOptions } from './readLog.js';
export type { LapSeen, MindersSeen } from './showSeen.js';
export type { CounterReading } from './readings.js';
