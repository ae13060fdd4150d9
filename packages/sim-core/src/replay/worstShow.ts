import { type Figure, type FigureName, FIGURES } from './figure.js';

/** The worst show of many. */
export interface WorstShow {
  readonly figure: FigureName;
  /** Number of the replication, from 0. */
  readonly replication: number;
  /** Its figure; NaN when no show has one. */
  readonly value: number;
  /** The average over the shows that have one. */
  readonly mean: number;
  /** How many shows were compared: from number 0 on. */
  readonly shows: number;
}

const larger = (a: number, b: number): number => Math.max(a, b);
const smaller = (a: number, b: number): number => Math.min(a, b);

/**
 * The worst of some values of a figure, by replication; the first among equals.
 *
 * @example
 * worstOf([3, 7, 7, NaN], 'spills') // => { figure: 'spills', replication: 1, value: 7, mean: 17 / 3, shows: 4 }
 */
export function worstOf(values: readonly number[], figure: FigureName): WorstShow | undefined {
  if (values.length === 0) return undefined;
  const { worst }: Figure = FIGURES[figure];
  const seen = values.filter((value) => !Number.isNaN(value));
  const value = seen.length === 0 ? NaN : seen.reduce(worst === 'highest' ? larger : smaller);
  return {
    figure,
    replication: Math.max(0, values.indexOf(value)),
    value,
    mean: seen.reduce((sum, one) => sum + one, 0) / seen.length,
    shows: values.length,
  };
}

/**
 * Which show was chosen and how it stands among the others, as a sentence.
 *
 * @example
 * worstSentence({ figure: 'spills', replication: 17, value: 412, mean: 38.2, shows: 100 }) // => 'Of shows 0 to 99, show 17 spilled most balls: 412, against 38.2 on average.'
 */
export function worstSentence({ figure, replication, value, mean, shows }: WorstShow): string {
  const { name, superlative, written }: Figure = FIGURES[figure];
  const all = `shows 0 to ${shows - 1}`;
  if (shows === 1) return 'Only show 0 was simulated.';
  if (Number.isNaN(value)) return `None of ${all} has a figure for this: ${name}. The first is replayed.`;
  if (value === mean) return `In each of ${all} the same: ${name}, ${written(value)}. The first is replayed.`;
  return `Of ${all}, show ${replication} ${superlative}: ${written(value)}, against ${written(mean)} on average.`;
}
