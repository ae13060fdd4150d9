export { group, type GroupRead, listOf, mapped, named, oneKey, orWord, shortOrLong } from './compound.js';
export { randomDuration, TIME_SCHEMA } from './duration.js';
export type { Field, JsonSchema, Read } from './field.js';
export { quantity } from './quantity.js';
export {
  choice,
  type Moment,
  moment,
  plainNumber,
  type Reference,
  reference,
  text,
  timeOfDay,
} from './simple.js';
