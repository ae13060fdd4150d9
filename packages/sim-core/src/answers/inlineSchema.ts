import {
  estimate,
  group,
  HOUSE_RULE_NAMES,
  listOf,
  MEASURES,
  number,
  numberOrNull,
  type Schema,
  text,
  whole,
} from '../experiments/index.js';
import { COUNTED_MODULES } from './countedSchema.js';

const orNull = (schema: Schema): Schema => ({ anyOf: [schema, { type: 'null' }] });
const measure: Schema = { enum: MEASURES.map(({ id }) => id) };
const name: Schema = { enum: HOUSE_RULE_NAMES };
const wholeOrNull: Schema = { type: ['integer', 'null'], minimum: 0 };
const limit = group({ mean: numberOrNull, low: numberOrNull, high: numberOrNull });

const rules = listOf(
  group({
    name,
    measure,
    side: { enum: ['at most', 'at least'] },
    limit: number,
    estimate,
    strict: estimate,
    verdict: { enum: ['kept', 'broken', 'open'] },
    beyond: numberOrNull,
    used: numberOrNull,
    more_replications: wholeOrNull,
  }),
);
const judgement = {
  verdict: { enum: ['inline', 'side table', 'undecided'] },
  rules,
  decides: name,
  more_replications: wholeOrNull,
};

const loop = group({ label: text, ...judgement, differences: listOf(estimate) });

/** The loop with what its figures were counted from kept in mind. */
const DOUBT = group({
  judgement: group(judgement),
  rules: listOf(
    group({
      name,
      keeps: numberOrNull,
      few_data: orNull(group({ mean: number, low: number, high: number })),
      sd_few_data: numberOrNull,
      sd_luck: numberOrNull,
    }),
  ),
  draws: whole,
  shows_per_draw: whole,
  counted: COUNTED_MODULES,
  bench: group({
    gains: listOf(group({ module: text, counted_s: number, share: number, takes_off: number })),
    best: { type: ['string', 'null'] },
  }),
});

/** The details of the answer to "inline or not". */
export const INLINE_DETAILS: Schema = group({
  module: text,
  place: text,
  confidence: number,
  replications: whole,
  with_it: loop,
  without_it: loop,
  with_stand_in: loop,
  search: orNull(
    group({
      measure,
      places: listOf(
        group({ label: text, figure: estimate, from_best: orNull(estimate), dropped_after: wholeOrNull }),
      ),
      best: whole,
      middling: whole,
      as_good: listOf(text),
      overlooks: numberOrNull,
      shows: whole,
    }),
  ),
  gain: orNull(group({ against: text, there: estimate, difference: estimate })),
  stops: orNull(
    group({
      found: { enum: ['limit', 'none', 'beyond'] },
      factor: limit,
      stops_per_hour: limit,
      now: numberOrNull,
      rule: name,
      points: listOf(group({ factor: number, stops_per_hour: numberOrNull, figures: listOf(estimate) })),
      replications: whole,
    }),
  ),
  doubt: orNull(DOUBT),
  left_out: listOf(text),
});
