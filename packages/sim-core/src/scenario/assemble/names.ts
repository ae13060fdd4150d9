import type { Found } from '../found.js';
import type { Reference } from '../fields/index.js';
import { suggest } from '../nearest.js';

/** Names that may be referred to, each with what it stands for. */
export class Names<T> {
  private readonly what: string;
  private readonly known: ReadonlyMap<string, T>;

  constructor(what: string, entries: readonly (readonly [string, T])[]) {
    this.what = what;
    this.known = new Map(entries);
  }

  /** What a reference stands for; reports it when there is no such name. */
  resolve(reference: Reference): T | undefined {
    return this.lookUp(reference.name, reference.found);
  }

  /** The same for a name that stands at this place. */
  lookUp(name: string, found: Found): T | undefined {
    const value = this.known.get(name);
    if (value !== undefined) return value;
    return found.report(
      'unknown_name',
      `there is no ${this.what} "${name.slice(0, 60)}" here`,
      this.known.size > 0 ? () => suggest(name, [...this.known.keys()]) : `There is no ${this.what} at all.`,
    );
  }
}
