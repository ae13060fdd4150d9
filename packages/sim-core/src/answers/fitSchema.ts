import { group, listOf, number, numberOrNull, type Schema, text, whole } from '../experiments/index.js';

const figure = group({
  value: numberOrNull,
  low: numberOrNull,
  high: numberOrNull,
  confidence: number,
  n: whole,
});
const orNull = (schema: Schema): Schema => ({ anyOf: [schema, { type: 'null' }] });
const textOrNull: Schema = { type: ['string', 'null'] };

/** The details of what logs say of modules. */
export const FIT_DETAILS: Schema = group({
  modules: listOf(
    group({
      module: text,
      builder: textOrNull,
      design: textOrNull,
      watched_s: number,
      running_s: number,
      cycle: orNull(group({ family: text, mean_s: figure, cv: figure })),
      batch: { type: ['integer', 'null'] },
      catch: orNull(figure),
      stops: listOf(
        group({
          cause: text,
          clock: { enum: ['running', 'per_cycle', 'per_ball'] },
          stops: whole,
          over: number,
          rate: figure,
          exact: group({ low: number, high: number }),
          clear_s: orNull(figure),
          crowded_times: orNull(figure),
          scenario: orNull(group({ rate: number, chance_of_none: number, stays: { type: 'boolean' } })),
        }),
      ),
      stops_trend: orNull(group({ power: number, chance: number })),
      cycle_change_per_hour: numberOrNull,
      notes: listOf(text),
    }),
  ),
  designs: listOf(
    group({
      design: text,
      causes: listOf(
        group({
          cause: text,
          family_rate: number,
          copies: listOf(
            group({ module: text, own: number, pooled: number, low: number, high: number, drawn: number }),
          ),
        }),
      ),
    }),
  ),
  into: textOrNull,
});
