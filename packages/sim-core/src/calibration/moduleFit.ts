import type { BatchFit } from './fitBatch.js';
import type { CauseFit } from './fitCause.js';
import type { CycleFit } from './fitCycle.js';
import type { DriftFit } from './fitDrift.js';

/** What logs tell of one module, with what they leave open. */
export interface ModuleFit {
  readonly module: string;
  readonly builder?: string;
  readonly design?: string;
  /** How many records were taken together. */
  readonly records: number;
  readonly watchedSeconds: number;
  /** Watched and not stopped. */
  readonly runningSeconds: number;
  /** Null when no batches were timed. */
  readonly cycle: CycleFit | null;
  /** Null when no batches were counted. */
  readonly batch: BatchFit | null;
  /** By cause, those with most stops first. */
  readonly causes: readonly CauseFit[];
  /** All causes together. */
  readonly anyStop: CauseFit;
  readonly drift: DriftFit;
  /** Plain sentences: what to know before these figures are used. */
  readonly notes: readonly string[];
}
