import type { LoopSpec } from '../../model/spec/index.js';
import type { Grid } from './grid.js';

/** What is varied. */
export type VariedThing =
  /** Balls in the loop. */
  | { readonly kind: 'balls' }
  /** Minders on duty all the time. */
  | { readonly kind: 'minders' }
  /** So many minders more than in the shifts at any time. */
  | { readonly kind: 'shifts' }
  /** Balls that the basket of a module holds. */
  | { readonly kind: 'basket'; readonly module: string }
  /** How often a module stops, as a factor on its causes. */
  | { readonly kind: 'stops'; readonly module: string }
  /** A number of the scenario file, with the unit that stands behind it. */
  | { readonly kind: 'key'; readonly key: string; readonly unit: string };

/** Something of a loop with the values it is to be tried with. */
export interface Varied {
  readonly thing: VariedThing;
  /** The loop as it is. */
  readonly now: LoopSpec;
  /** The value as it is; null when that is not one number. */
  readonly today: number | null;
  /** The loop with another value; undefined when there is none with this value. */
  readonly at: (value: number) => LoopSpec | undefined;
  /** The changes that make such a loop, as they are typed: `--set charge=600`; none when nothing typed does. */
  readonly changes?: (value: number) => readonly string[];
  readonly grid: Grid;
  /** What is wanted of it when nobody says and the shows do not tell: as much or as little as will do. */
  readonly want: 'most' | 'least';
}
