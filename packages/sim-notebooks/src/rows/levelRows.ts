import type { RunResult, Scenario } from '@lapwright/sim-core';
import { sliceHours } from './timeRows.js';

/** One cell of the map of basket levels. */
export interface LevelRow {
  readonly module: string;
  readonly from: number;
  readonly to: number;
  /** Average level over the slice: share of the basket's capacity, or balls when some basket cannot overflow. */
  readonly level: number;
}

/** True when levels can be given as shares: every basket of the scenario can overflow. */
export function levelsAreShares({ spec }: Scenario): boolean {
  return spec.modules.every(({ basket }) => basket.capacity < Infinity);
}

/** The average level of every basket over every slice. */
export function levelRows(result: RunResult, scenario: Scenario): LevelRow[] {
  const hours = sliceHours(result);
  const shares = levelsAreShares(scenario);
  return scenario.spec.modules.flatMap(({ id, basket }, m) =>
    hours.map(({ from, to }, k) => {
      const balls = result.series.level_mean[m]?.[k]?.mean ?? 0;
      return { module: id, from, to, level: shares ? balls / basket.capacity : balls };
    }),
  );
}
