import type { HouseRules } from './houseRules.js';
import type { LoopSpec, ModuleCounted, ModuleSpec } from '../model/spec/index.js';
import type { Pair } from '../orders/index.js';

/** What a file says must hold of the order of modules, by their ids; those on the side table may be among them. */
export interface TableRules {
  readonly fixed: readonly string[];
  /** Whether the modules of each builder stay together. */
  readonly builders: boolean;
  readonly groups: readonly (readonly string[])[];
  readonly apart: readonly Pair[];
  readonly neverRightAfter: readonly Pair[];
  readonly neverBehind: readonly Pair[];
}

/** A scenario that was read without a problem. */
export interface Scenario {
  readonly name: string;
  readonly about?: string;
  /** What the simulator needs. */
  readonly spec: LoopSpec;
  /** Modules described in the file but not in the loop: on the side table. */
  readonly sideTable: readonly ModuleSpec[];
  /** What must hold when another order is looked for; no rules when absent. It does not change what is simulated. */
  readonly rules?: TableRules;
  /** What the house allows; absent when the file has no such rules. */
  readonly houseRules?: HouseRules;
  /**
   * What the figures of modules were counted from, of each that says so, wherever it is; absent when none does. It changes
   * no result of a show.
   */
  readonly counted?: readonly ModuleCounted[];
  readonly source: {
    /** Path as it was given. */
    readonly file: string;
    /** SHA-256 of the bytes of the file, hexadecimal. */
    readonly sha256: string;
  };
}
