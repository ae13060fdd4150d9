/**
 * What is known so far: the values of all measures by system and replication.
 *
 * @example
 * const table = new ValueTable();
 * table.add('a', 0, [0.9, 12]);
 * table.column('a', 1, 1) // => [12]
 */
export class ValueTable {
  private readonly rows = new Map<string, Map<number, readonly number[]>>();
  private known = 0;

  /** Shows that are known. */
  get size(): number {
    return this.known;
  }

  has(key: string, replication: number): boolean {
    return this.rows.get(key)?.has(replication) ?? false;
  }

  add(key: string, replication: number, values: readonly number[]): void {
    let shows = this.rows.get(key);
    if (shows === undefined) {
      shows = new Map();
      this.rows.set(key, shows);
    }
    if (!shows.has(replication)) this.known++;
    shows.set(replication, values);
  }

  /** All shows, by system and then by replication. */
  *shows(): Generator<readonly [key: string, replication: number, values: readonly number[]]> {
    for (const key of [...this.rows.keys()].toSorted()) {
      for (const [replication, values] of [...(this.rows.get(key) ?? [])].toSorted(([a], [b]) => a - b))
        yield [key, replication, values];
    }
  }

  /**
   * All values of one show.
   *
   * @throws Error when it is not known
   */
  row(key: string, replication: number): readonly number[] {
    const values = this.rows.get(key)?.get(replication);
    if (values === undefined) throw new Error(`show ${replication} of ${key} is not known`);
    return values;
  }

  /**
   * The values of one measure over replications `from` to `from + count - 1`, in order.
   *
   * @throws Error when one of them is not known
   */
  column(key: string, measure: number, count: number, from = 0): number[] {
    const shows = this.rows.get(key);
    return Array.from({ length: count }, (_, i) => {
      const value = shows?.get(from + i)?.[measure];
      if (value === undefined) throw new Error(`show ${from + i} of ${key} is not known`);
      return value;
    });
  }
}
