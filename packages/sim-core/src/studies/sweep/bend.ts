/** A place where a trade-off bends. */
export interface Bend {
  readonly value: number;
  /** Gain of what is paid for, over the range looked at, that is had up to there; a share. */
  readonly gained_share: number;
  /** The same of the cost. */
  readonly paid_share: number;
}

/** One value with what it brings and what it costs. */
export interface Trade {
  readonly value: number;
  readonly gain: number;
  readonly cost: number;
}

/**
 * Where a trade-off bends: the value at which most of the gain is had for least of the cost, both as shares of their range
 * over the values looked at (the point furthest from the straight line between the ends). Null when it does not bend: the
 * gain does not rise with the cost, it bends at an end, or no point lies a tenth of the range off the line.
 *
 * @example
 * bend([{ value: 1, gain: 0, cost: 0 }, { value: 2, gain: 8, cost: 2 }, { value: 3, gain: 10, cost: 10 }]) // => { value: 2, gained_share: 0.8, paid_share: 0.2 }
 */
export function bend(trades: readonly Trade[]): Bend | null {
  const range = (of: (trade: Trade) => number): readonly [number, number] => {
    const values = trades.map(of);
    return [Math.min(...values), Math.max(...values)];
  };
  const [leastGain, mostGain] = range(({ gain }) => gain);
  const [leastCost, mostCost] = range(({ cost }) => cost);
  if (trades.length < 3 || !(mostGain > leastGain) || !(mostCost > leastCost)) return null;
  const shares = trades.map(({ value, gain, cost }) => ({
    value,
    gained_share: (gain - leastGain) / (mostGain - leastGain),
    paid_share: (cost - leastCost) / (mostCost - leastCost),
  }));
  const found = shares.reduce((best, one) =>
    one.gained_share - one.paid_share > best.gained_share - best.paid_share ? one : best,
  );
  const isEnd = found === shares[0] || found === shares.at(-1);
  return !isEnd && found.gained_share - found.paid_share >= 0.1 ? found : null;
}
