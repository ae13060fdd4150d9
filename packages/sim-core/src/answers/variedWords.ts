import type { VariedThing } from '../studies/index.js';

/** How something that is varied is put into words. */
export interface VariedWords {
  /** What it is, as a question: "how many balls". */
  readonly question: string;
  /** For an axis. */
  readonly axis: string;
  /** For the head of a table. */
  readonly head: string;
  /** A value in a table. */
  readonly cell: (value: number) => string;
  /** Behind "with": "with 3 minders", "with a basket of 120 balls". */
  readonly having: (value: number) => string;
  /** Shorter, when it has been said what is meant: "with 3". */
  readonly short: (value: number) => string;
  /** What to do: "Take 3 minders". */
  readonly take: (value: number) => string;
  /** Other values on the side that costs more, as the subject of a sentence in the plural. */
  readonly beyond: string;
}

/**
 * The words for what is varied.
 *
 * @example
 * variedWords({ kind: 'minders' }, 'least').take(1) // => 'Take 1 minder'
 */
export function variedWords(thing: VariedThing, want: 'most' | 'least'): VariedWords {
  const beyond = want === 'least' ? 'more' : 'fewer';
  switch (thing.kind) {
    case 'balls': {
      const having = counted('ball', 'balls');
      return {
        question: 'how many balls',
        axis: 'balls in the loop',
        head: 'balls',
        cell: String,
        having,
        short: String,
        take: (value) => `Take ${having(value)}`,
        beyond,
      };
    }
    case 'minders': {
      const having = counted('minder', 'minders');
      return {
        question: 'how many minders',
        axis: 'minders on duty',
        head: 'minders',
        cell: String,
        having,
        short: String,
        take: (value) => `Take ${having(value)}`,
        beyond,
      };
    }
    case 'shifts': {
      const having = (value: number): string =>
        value === 0
          ? 'the shifts as they are'
          : `${Math.abs(value)} ${Math.abs(value) === 1 ? 'minder' : 'minders'} ${value > 0 ? 'more' : 'fewer'} in every shift`;
      return {
        question: 'how many minders in every shift',
        axis: 'minders more than in the shifts',
        head: 'minders',
        cell: (value) => (value > 0 ? `+${value}` : String(value)),
        having,
        short: having,
        take: (value) => (value === 0 ? 'Leave the shifts as they are' : `Take ${having(value)}`),
        beyond,
      };
    }
    case 'basket': {
      const { module } = thing;
      return {
        question: `how large a basket for ${module}`,
        axis: `balls that the basket of ${module} holds`,
        head: 'basket',
        cell: String,
        having: (value) => `a basket of ${counted('ball', 'balls')(value)} at ${module}`,
        short: String,
        take: (value) => `Give ${module} a basket of ${counted('ball', 'balls')(value)}`,
        beyond: want === 'least' ? 'larger baskets' : 'smaller baskets',
      };
    }
    case 'stops': {
      const { module } = thing;
      const often = (value: number): string =>
        value === 0
          ? 'never stopping'
          : value === 1
            ? 'stopping as often as now'
            : `stopping ${String(value)} times as often as now`;
      return {
        question: `how often may ${module} stop`,
        axis: `stops of ${module}, times as often as now`,
        head: 'stops',
        cell: String,
        having: (value) => `${module} ${often(value)}`,
        short: (value) => `${module} ${often(value)}`,
        take: (value) =>
          value === 0
            ? `Bear with no stops of ${module}`
            : `Bear with up to ${value === 1 ? 'as many' : `${value} times as many`} stops of ${module} as now`,
        beyond: want === 'least' ? 'more stops' : 'fewer stops',
      };
    }
    case 'key': {
      const { key, unit } = thing;
      const cell = (value: number): string => `${String(value)}${unit === '' ? '' : ` ${unit}`}`;
      return {
        question: `how much for ${key}`,
        axis: unit === '' ? key : `${key}, ${unit}`,
        head: key.slice(key.lastIndexOf('.') + 1),
        cell,
        having: (value) => `${key} at ${cell(value)}`,
        short: cell,
        take: (value) => `Set ${key} to ${cell(value)}`,
        beyond: want === 'least' ? 'larger values' : 'smaller values',
      };
    }
  }
}

function counted(one: string, many: string): (value: number) => string {
  return (value) => `${value} ${value === 1 ? one : many}`;
}
