export { allowedOrder, contradiction } from './allowedOrder.js';
export {
  keepsRule,
  listRules,
  NO_RULES,
  type OrderGroup,
  type OrderRule,
  type OrderRules,
  type Pair,
  ruleWords,
} from './orderRules.js';
export {
  keptModules,
  type MoveStep,
  moveSteps,
  onlyMoves,
  type OrderMove,
  orderMoves,
} from './orderMoves.js';
