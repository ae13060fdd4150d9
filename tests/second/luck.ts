import type { ModuleSpec } from '../../packages/sim-core/src/model/spec/index.js';

/** A time as a spec gives it. */
export type Time = ModuleSpec['cycle'];

/** Where all that is left to chance comes from. `owner` is the id of a module, or null. */
export interface Luck {
  /** Seconds. */
  time(owner: string | null, purpose: string, spec: Time): number;
  chance(owner: string | null, purpose: string, probability: number): boolean;
  /** Uniform from 0 to 1. */
  uniform(owner: string | null, purpose: string): number;
  /** Seconds until the first pick of a continuous drive. */
  phase(owner: string, cycle: Time): number;
}

/**
 * No luck at all: for stories in which every time is constant and every chance 0 or 1.
 *
 * @param phases seconds until the first pick of each continuous module, by id
 */
export function noLuck(phases: ReadonlyMap<string, number> = new Map()): Luck {
  return {
    time(owner, purpose, spec) {
      if (spec.family !== 'constant') throw new Error(`${owner} ${purpose} is not constant`);
      return spec.value;
    },
    chance(owner, purpose, probability) {
      if (probability > 0 && probability < 1) throw new Error(`${owner} ${purpose} is left to chance`);
      return probability >= 1;
    },
    uniform(owner, purpose) {
      throw new Error(`${owner} ${purpose} is left to chance`);
    },
    phase(owner) {
      const phase = phases.get(owner);
      if (phase === undefined) throw new Error(`the phase of ${owner} is left to chance`);
      return phase;
    },
  };
}

/** True for a time that is always 0: such a job needs no minder, such a way takes no time. */
export const isNothing = (spec: Time): boolean => spec.family === 'constant' && spec.value === 0;
