import type { HouseRules } from './houseRules.js';
import type { LoopSpec, ModuleSpec } from '../model/spec/index.js';

/** A scenario that was read without a problem. */
export interface Scenario {
  readonly name: string;
  readonly about?: string;
  /** What the simulator needs. */
  readonly spec: LoopSpec;
  /** Modules described in the file but not in the loop: on the side table. */
  readonly sideTable: readonly ModuleSpec[];
  /** What the house allows; absent when the file has no such rules. */
  readonly houseRules?: HouseRules;
  readonly source: {
    /** Path as it was given. */
    readonly file: string;
    /** SHA-256 of the bytes of the file, hexadecimal. */
    readonly sha256: string;
  };
}
