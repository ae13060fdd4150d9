/** The rules that a house may have, by their keys in the file. */
export const HOUSE_RULE_NAMES = [
  'spills_per_hour',
  'overflow_risk',
  'least_throughput',
  'longest_lap',
] as const;

export type HouseRuleName = (typeof HOUSE_RULE_NAMES)[number];

/**
 * What the house allows: balls per public hour, a share from 0 to 1, balls per second, seconds. A rule that is absent is
 * none. They stand beside the loop and change nothing in a simulation.
 */
export type HouseRules = { readonly [name in HouseRuleName]?: number };
