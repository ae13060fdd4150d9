import type { LogWord } from './logWords.js';

/** A row that could be read, before it is known what it means among the others. */
export interface LogRow {
  /** Which of the files, from 0. */
  readonly file: number;
  readonly line: number;
  /** Where its line begins in the text of the file. */
  readonly start: number;
  readonly what: LogWord;
  /** Seconds: of the clock since the beginning of its day, or since the start. Later: on the axis of the log. */
  time: number;
  /** The day it names. */
  readonly day: number | undefined;
  /** Empty when it concerns the whole loop. */
  readonly module: string;
  readonly cause: string;
  readonly count: number | undefined;
  /** Share of the basket. */
  readonly level: number | undefined;
  /** Seconds. */
  readonly lasted: number | undefined;
  /** Whether it counts; not known at first. */
  fate: Fate;
}

/** What has become of a row. */
export type Fate = 'open' | 'used' | 'left out';
