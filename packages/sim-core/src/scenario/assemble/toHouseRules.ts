import type { HouseRulesRead } from '../form/houseRulesForm.js';
import { HOUSE_RULE_NAMES, type HouseRules } from '../houseRules.js';

/** The rules of the house that could be read, in the order of the form. */
export function toHouseRules(read: NonNullable<HouseRulesRead>): HouseRules {
  return Object.fromEntries(
    HOUSE_RULE_NAMES.flatMap((name) => {
      const limit = read[name];
      return limit === undefined ? [] : [[name, limit]];
    }),
  );
}
