import { InputError } from '../errors/index.js';
import type { Study } from './study.js';
import type { System } from './system.js';

/** What both procedures work with. */
export interface SelectionTask {
  readonly study: Study;
  readonly systems: readonly System[];
  readonly on: string;
  /** 1 when more is better, -1 when less is. */
  readonly sign: 1 | -1;
  readonly cap: number;
  readonly firstLook: number;
  readonly confidence: number;
  /** That the measure cannot vary from show to show in any of them, by the scenarios. */
  readonly certain: boolean;
  /** The zone, from the values of the first look of each system. */
  readonly zoneOf: (first: readonly (readonly number[])[]) => number;
}

/** What a procedure comes to. */
export interface Selected {
  /** Values of each system that counted, signs as they are. */
  readonly values: readonly (readonly number[])[];
  /** Numbers of those left. */
  readonly left: readonly number[];
  readonly droppedAfter: ReadonlyMap<number, number>;
  readonly zone: number;
  /** Shows of the first look: more than asked for where those were all alike. */
  readonly firstLook: number;
  readonly promised: number;
  readonly enough: number | null;
  readonly leftOut: number;
}

/**
 * That a measure has too few values to choose by.
 *
 * @throws InputError always
 */
export function nothingMeasured(on: string, shows: number, wanted: number): never {
  throw new InputError([
    {
      code: 'contradiction',
      path: '--on',
      found: on,
      rule: `a measure that has a value in every one of them in ${wanted} of the first ${shows} shows at least`,
      hint: 'Choose by another measure, or take out the one in which it is never there.',
    },
  ]);
}
