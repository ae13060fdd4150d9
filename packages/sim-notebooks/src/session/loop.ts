import {
  applyChanges,
  type Change,
  type ModuleSpec,
  parseChanges,
  type Scenario,
  type TypedOption,
} from '@lapwright/sim-core';
import { inText } from './inText.js';
import { plainly } from './plainly.js';

/** Where a module goes: right behind another one of the loop, or right before it. */
export type Where = { readonly after: string } | { readonly before: string };

/** What a loop was read from, and what was changed since. */
export interface LoopOrigin {
  /** Text of the scenario file. */
  readonly text: string;
  /** Its path as it was given. */
  readonly file: string;
  readonly scenario: Scenario;
  readonly changes: readonly Change[];
  /** The changes in plain words. */
  readonly changesInWords: readonly string[];
}

/**
 * A loop as a scenario file describes it, ready to be simulated. It never changes: each change gives another loop, so that
 * both can be compared.
 *
 * @example
 * load('scenarios/chain-of-five.yaml').stopsOff('third').swap('first', 'second').modules // => ['second', 'first', 'third', 'fourth', 'fifth']
 */
export class Loop {
  readonly name: string;
  /** Names of the modules, in the order in which balls pass. */
  readonly modules: readonly string[];
  /** Names of the modules on the side table. */
  readonly sideTable: readonly string[];
  /** What was changed since it was read, in plain words. */
  readonly changes: readonly string[];
  readonly scenario: Scenario;
  /** What it was read from. */
  readonly origin: LoopOrigin;

  constructor(origin: LoopOrigin) {
    const { scenario } = origin;
    const names = (modules: readonly ModuleSpec[]): string[] => modules.map(({ id }) => id);
    this.origin = origin;
    this.scenario = scenario;
    this.name = scenario.name;
    this.modules = names(scenario.spec.modules);
    this.sideTable = names(scenario.sideTable);
    this.changes = origin.changesInWords;
    inText(this, () => {
      const changed = this.changes.length === 0 ? '' : `; ${this.changes.join('; ')}`;
      return `${this.name}: ${this.modules.join(', ')}${changed}`;
    });
  }

  /**
   * Another value for a key of the file: `loop.set('charge', 600)`, `loop.set('modules.tipper.cycle', '3 s')`.
   * `explain('charge')` tells what a key means.
   */
  set(key: string, value: string | number): Loop {
    return this.changed([{ option: 'set', value: `${key}=${value}` }]);
  }

  /** Two modules change places: `loop.swap('tipper', 'wheel')`. */
  swap(one: string, other: string): Loop {
    return this.changed([{ option: 'swap', value: `${one},${other}` }]);
  }

  /** A module goes to another place: `loop.move('tipper', { after: 'wheel' })`. */
  move(module: string, where: Where): Loop {
    return this.changed([{ option: 'move', value: module }, placing(where)]);
  }

  /** A module goes to the side table: `loop.without('tipper')`. */
  without(module: string): Loop {
    return this.changed([{ option: 'without', value: module }]);
  }

  /** A module comes from the side table into the loop: `loop.putIn('tipper', { after: 'wheel' })`. */
  putIn(module: string, where: Where): Loop {
    return this.changed([{ option: 'with', value: module }, placing(where)]);
  }

  /** As if a module never stopped: `loop.stopsOff('tipper')`. */
  stopsOff(module: string): Loop {
    return this.changed([{ option: 'stops-off', value: module }]);
  }

  /**
   * The same for changes as they are typed on the command line, read already; see the verb `change`.
   *
   * @throws ChangeError with every change that cannot be made
   */
  changed(typed: readonly TypedOption[]): Loop {
    return plainly(() => {
      const { text, file, scenario, changes } = this.origin;
      const found = applyChanges({ text, file }, [...changes, ...parseChanges(typed)]);
      return new Loop({
        text,
        file,
        // The hash is that of the bytes of the file, of which the text is only the meaning.
        scenario: { ...found, source: { ...found.source, sha256: scenario.source.sha256 } },
        changes: found.changes,
        changesInWords: found.changesInWords,
      });
    });
  }
}

function placing(where: Where): TypedOption {
  return 'after' in where
    ? { option: 'after', value: where.after }
    : { option: 'before', value: where.before };
}
