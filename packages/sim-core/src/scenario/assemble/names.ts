import type { Found } from '../found.js';
import type { Reference } from '../fields/index.js';
import { suggest } from '../nearest.js';

/** Names that may be referred to, each with what it stands for. */
export class Names<T> {
  private readonly what: string;
  private readonly known: ReadonlyMap<string, T>;
  private readonly others: ReadonlyMap<string, string>;

  /**
   * @param others names that exist but are not meant here, each with what it is: "on the side table"
   */
  constructor(
    what: string,
    entries: readonly (readonly [string, T])[],
    others: readonly (readonly [string, string])[] = [],
  ) {
    this.what = what;
    this.known = new Map(entries);
    this.others = new Map(others);
  }

  /** What a name stands for; undefined when there is no such name. */
  get(name: string): T | undefined {
    return this.known.get(name);
  }

  /** What a reference stands for; reports it when there is no such name. */
  resolve(reference: Reference): T | undefined {
    return this.lookUp(reference.name, reference.found);
  }

  /** The same for a name that stands at this place. */
  lookUp(name: string, found: Found): T | undefined {
    const value = this.known.get(name);
    if (value !== undefined) return value;
    const other = this.others.get(name);
    return found.report(
      'unknown_name',
      other !== undefined
        ? `${name} is ${other}, but a ${this.what} is needed here`
        : `there is no ${this.what}${this.what.includes(' ') ? ' called' : ''} "${name.slice(0, 60)}" here`,
      this.known.size > 0 ? () => suggest(name, [...this.known.keys()]) : `There is no ${this.what} at all.`,
    );
  }
}
