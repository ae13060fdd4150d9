/** Where a show was read. */
export interface RowOrigin {
  readonly file: string;
  /** From 1. */
  readonly line: number;
}

/** The values of one show. */
interface Row {
  readonly values: readonly number[];
  readonly origin?: RowOrigin;
}

/**
 * What is known so far: the values of all measures by system and replication.
 *
 * @example
 * const table = new ValueTable();
 * table.add('a', 0, [0.9, 12]);
 * table.column('a', 1, 1) // => [12]
 */
export class ValueTable {
  private readonly rows = new Map<string, Map<number, Row>>();
  private known = 0;

  /** Shows that are known. */
  get size(): number {
    return this.known;
  }

  has(key: string, replication: number): boolean {
    return this.rows.get(key)?.has(replication) ?? false;
  }

  /** @param origin where it was read; undefined when it was simulated */
  add(key: string, replication: number, values: readonly number[], origin?: RowOrigin): void {
    let shows = this.rows.get(key);
    if (shows === undefined) {
      shows = new Map();
      this.rows.set(key, shows);
    }
    if (!shows.has(replication)) this.known++;
    shows.set(replication, { values, ...(origin && { origin }) });
  }

  /** Where a show was read; undefined when it was simulated or is not known. */
  origin(key: string, replication: number): RowOrigin | undefined {
    return this.rows.get(key)?.get(replication)?.origin;
  }

  /** The replications of a system that are known, in the order in which they became so. */
  replications(key: string): readonly number[] {
    return [...(this.rows.get(key)?.keys() ?? [])];
  }

  /** All shows, by system and then by replication. */
  *shows(): Generator<readonly [key: string, replication: number, values: readonly number[]]> {
    for (const key of [...this.rows.keys()].toSorted()) {
      for (const [replication, { values }] of [...(this.rows.get(key) ?? [])].toSorted(([a], [b]) => a - b))
        yield [key, replication, values];
    }
  }

  /**
   * All values of one show.
   *
   * @throws Error when it is not known
   */
  row(key: string, replication: number): readonly number[] {
    const row = this.rows.get(key)?.get(replication);
    if (row === undefined) throw new Error(`show ${replication} of ${key} is not known`);
    return row.values;
  }

  /**
   * The values of one measure over replications `from` to `from + count - 1`, in order.
   *
   * @throws Error when one of them is not known
   */
  column(key: string, measure: number, count: number, from = 0): number[] {
    const shows = this.rows.get(key);
    return Array.from({ length: count }, (_, i) => {
      const value = shows?.get(from + i)?.values[measure];
      if (value === undefined) throw new Error(`show ${from + i} of ${key} is not known`);
      return value;
    });
  }
}
