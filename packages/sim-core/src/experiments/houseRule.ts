import type { HouseRuleName, HouseRules } from '../scenario/index.js';

export { HOUSE_RULE_NAMES } from '../scenario/index.js';

/** One rule of the house: a limit on one measure of a show, on average over shows. */
export interface HouseRule {
  /** Its key in the file. */
  readonly name: HouseRuleName;
  /** As in MEASURES. */
  readonly measure: string;
  readonly side: 'at most' | 'at least';
  /** In the unit of the measure. */
  readonly limit: number;
}

/** The measure that each rule limits, and on which side. */
const MEASURED: Readonly<Record<HouseRuleName, Pick<HouseRule, 'measure' | 'side'>>> = {
  spills_per_hour: { measure: 'spills_per_hour', side: 'at most' },
  overflow_risk: { measure: 'spill_hour_share', side: 'at most' },
  least_throughput: { measure: 'throughput_bps', side: 'at least' },
  longest_lap: { measure: 'loop_time_p95_s', side: 'at most' },
};

/**
 * The rules of a house, each with the measure that it limits. "Longest lap" is read as the loop time that only the slowest
 * 5 % of the laps of a show exceed: the single slowest lap would grow with the length of the show and hang on one ball.
 *
 * @example
 * houseRules({ spills_per_hour: 80 }) // => [{ name: 'spills_per_hour', measure: 'spills_per_hour', side: 'at most', limit: 80 }]
 */
export function houseRules(rules: HouseRules): HouseRule[] {
  return Object.entries(rules).map(([key, limit]) => {
    const name = key as HouseRuleName;
    return { name, ...MEASURED[name], limit };
  });
}
