import type { LoopSpec } from '../model/spec/index.js';
import type { LogEntry } from './logEntry.js';

/** Keeps track of what stands at each place while a log is read from its beginning. */
export class PlaceNames {
  private readonly ids: readonly string[];
  private readonly standIns = new Map<number, string>();

  constructor({ modules }: LoopSpec) {
    this.ids = modules.map(({ id }) => id);
  }

  /** Takes note of an entry; call it for each, after its names have been used. */
  follow({ kind, module, what }: LogEntry): void {
    if (kind === 'pulled' && what !== undefined) this.standIns.set(module, what);
    if (kind === 'put_back') this.standIns.delete(module);
  }

  /** Id of the module that belongs to a place; empty for no place. */
  module(place: number): string {
    return this.ids[place] ?? '';
  }

  /** What stands in the place of its module; undefined when that is there itself. */
  standIn(place: number): string | undefined {
    return this.standIns.get(place);
  }

  /** What stands at a place, in words. */
  shown(place: number): string {
    const standIn = this.standIns.get(place);
    return standIn === undefined ? this.module(place) : `${standIn} in the place of ${this.module(place)}`;
  }
}
