import { VERSION } from '../experiments/index.js';
import { GENERATOR } from '../random/index.js';
import { type CountedModule, countedPhrase } from './doubtWords.js';
import type { Picture } from './picture.js';

/** The questions that have an answer of this form. */
export const QUESTIONS = [
  'enough',
  'compare',
  'inline',
  'when-stops',
  'flood-card',
  'how-rare',
  'how-many',
  'spares',
  'mend-first',
  'best-of',
  'best-order',
  'fit',
  'match',
  'debrief',
] as const;

export type Question = (typeof QUESTIONS)[number];

/** A scenario that an answer is about. */
export interface ScenarioReference {
  readonly name: string;
  readonly file: string;
  readonly sha256: string;
  /** Changes to the file, as typed. */
  readonly changes: readonly string[];
  /** The modules and spares of the loop whose figures were counted; absent when none were. */
  readonly counted?: readonly CountedModule[];
}

/** A table of an answer: all cells are text, the first of each row names it. */
export interface AnswerTable {
  readonly title: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** What is particular to the answer of one question. */
export interface AnswerParts {
  readonly question: Question;
  readonly title: string;
  /** One of a few fixed words or phrases of this question, for programs. */
  readonly verdict: string;
  /** The verdict as a plain sentence with its evidence. */
  readonly sentence: string;
  /** What it rests on; may be empty. */
  readonly because: readonly string[];
  readonly pictures: readonly Picture[];
  readonly tables: readonly AnswerTable[];
  /** How sure this is, and what it does not say. */
  readonly sure: readonly string[];
  /** What to try next; may be empty. */
  readonly next: readonly string[];
  /** The numbers, under names of this question. */
  readonly details: Readonly<Record<string, unknown>>;
  /** Whether it keeps in mind what figures were counted from. @default false */
  readonly counts_kept?: boolean;
}

/** Where an answer comes from. */
export interface AnswerOrigin {
  readonly seed: number;
  readonly scenarios: readonly ScenarioReference[];
  /** How many shows the answer rests on, over all loops that were simulated for it. */
  readonly shows: number;
}

/** The answer to a question: verdict first, then pictures, numbers, how sure, what to try next. */
export interface Answer extends AnswerOrigin, Omit<AnswerParts, 'counts_kept'> {
  readonly kind: 'lapwright-answer';
  readonly format: 1;
  readonly version: string;
  readonly generator: string;
}

/**
 * An answer with its origin; the order of its keys is that of the file.
 *
 * @example
 * toAnswer(exampleAnswer, { seed: 7, scenarios: [], shows: 100 }).seed // => 7
 */
export function toAnswer(parts: AnswerParts, origin: AnswerOrigin): Answer {
  const { question, title, verdict, sentence, because, pictures, tables, next, details } = parts;
  const sure = [...parts.sure, ...(parts.counts_kept === true ? [] : atTheirWord(origin.scenarios))];
  return {
    kind: 'lapwright-answer',
    format: 1,
    question,
    title,
    verdict,
    sentence,
    because,
    details,
    tables,
    pictures,
    sure,
    next,
    scenarios: origin.scenarios,
    shows: origin.shows,
    seed: origin.seed,
    generator: GENERATOR,
    version: VERSION,
  };
}

/** Said of every answer that takes figures at their word although little stands behind them. */
function atTheirWord(scenarios: readonly ScenarioReference[]): string[] {
  const counted = new Map(
    scenarios.flatMap((scenario) => (scenario.counted ?? []).map((one) => [one.module, one])),
  );
  if (counted.size === 0) return [];
  return [
    `${countedPhrase([...counted.values()])}; this answer takes them at their word. "Can this module go inline?" (npx lapwright inline) keeps in mind how little that is.`,
  ];
}
