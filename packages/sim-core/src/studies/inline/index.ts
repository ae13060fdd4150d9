export { type HouseJudgement, type HouseVerdict, judge, type RuleCheck } from './houseVerdict.js';
export {
  inline,
  type Inline,
  type InlineCase,
  type InlineOptions,
  type InlinePlace,
  type JudgedLoop,
  type PlaceGain,
} from './inline.js';
export { type PlaceSearch, type PlaceSeen } from './placeSearch.js';
export { usedUp, type RuleVerdict } from './ruleCheck.js';
export { plainChuteFor } from './standIn.js';
export { type LimitValue, type StopsPoint, type ToleratedStops } from './toleratedStops.js';
