import type { ModuleSpec } from '../model/spec/index.js';

/** The type 1 interface standard of the hobby: on average 1 ball a second, batches of at most 30, a basket for one. */
export const TYPE_1 = { rateBps: 1, mostBatch: 30 } as const;

/**
 * Where a module departs from the type 1 interface standard, in plain sentences; empty when it conforms.
 *
 * Checked: it passes at least 1 ball a second while it runs, it releases at most 30 balls at once, and its basket takes
 * a batch of 30. The outer size of the basket is not part of a scenario.
 *
 * @param runningBps balls per second while it runs: batch x catch / mean cycle
 * @example
 * type1Departures({ ...exampleLoop.modules[0], batch: 31 }, 1.2) // => ['releases up to 31 balls at once, more than 30']
 */
export function type1Departures(module: ModuleSpec, runningBps: number): string[] {
  const { batch, basket } = module;
  const departures: string[] = [];
  // A hair of slack: 30 balls in 30 s are 1 ball a second, whatever the rounding.
  if (runningBps < TYPE_1.rateBps * (1 - 1e-9)) {
    departures.push(
      `passes ${runningBps.toFixed(2)} balls a second while it runs, less than ${TYPE_1.rateBps}`,
    );
  }
  if (batch > TYPE_1.mostBatch)
    departures.push(`releases up to ${batch} balls at once, more than ${TYPE_1.mostBatch}`);
  if (basket.capacity < TYPE_1.mostBatch) {
    departures.push(`its basket holds ${basket.capacity} balls, less than a batch of ${TYPE_1.mostBatch}`);
  }
  return departures;
}
