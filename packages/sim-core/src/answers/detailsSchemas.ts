import {
  estimate,
  flag,
  group,
  listOf,
  MEASURES,
  number,
  numberOrNull,
  type Schema,
  text,
  whole,
} from '../experiments/index.js';
import type { Question } from './answer.js';

const measure: Schema = { enum: MEASURES.map(({ id }) => id) };

const criteria = listOf(group({ measure, margin: { type: 'number', minimum: 0 } }));
const share: Schema = { type: 'number', minimum: 0, maximum: 1 };

function orNull(schema: Schema): Schema {
  return { anyOf: [schema, { type: 'null' }] };
}

/** The details of the answer to each question. */
export const DETAILS: Readonly<Record<Question, Schema>> = {
  compare: group({
    measures: listOf(
      group({
        measure,
        before: estimate,
        after: estimate,
        difference: estimate,
        correlation: numberOrNull,
        pair_worth: numberOrNull,
      }),
    ),
    on: measure,
    margin: { type: 'number', minimum: 0 },
    verdict: { enum: ['better', 'worse', 'no difference that matters', 'undecided'] },
    replications: whole,
    looked_early: flag,
    more_replications: { type: ['integer', 'null'], minimum: 0 },
  }),
  'mend-first': group({
    on: measure,
    now: estimate,
    places: whole,
    modules: listOf(
      group(
        { id: text, builder: text, gain: estimate, dropped_after: { type: ['integer', 'null'], minimum: 1 } },
        ['builder'],
      ),
    ),
    first: listOf(text),
  }),
  'how-many': group({
    thing: {
      anyOf: [
        group({ kind: { enum: ['balls', 'minders', 'shifts'] } }),
        group({ kind: { enum: ['basket', 'stops'] }, module: text }),
        group({ kind: { const: 'key' }, key: text, unit: text }),
      ],
    },
    today: numberOrNull,
    on: measure,
    form: { enum: ['limit', 'enough'] },
    limit: numberOrNull,
    margin: numberOrNull,
    also: criteria,
    want: { enum: ['most', 'least'] },
    recommended: numberOrNull,
    at_the_end: flag,
    rival: orNull(group({ value: number, measure, gain: estimate })),
    next: orNull(group({ value: number, measure, gain: estimate })),
    bend: orNull(group({ value: number, gained_share: share, paid_share: share, cost: measure })),
    now: listOf(group({ measure, estimate })),
    changes: listOf(text),
    values: listOf(
      group({
        value: number,
        measures: listOf(group({ measure, estimate })),
        verdict: { enum: ['yes', 'no', 'undecided', 'more than it takes', 'not judged'] },
        shows: whole,
      }),
    ),
  }),
  spares: group({
    on: measure,
    named: listOf(text),
    unnamed: listOf(text),
    pulled: listOf(text),
    replications: whole,
    margin: { type: 'number', minimum: 0 },
    also: criteria,
    sets: listOf(
      group({
        spares: listOf(text),
        estimate,
        measures: listOf(group({ measure, estimate })),
        gain: estimate,
        judged: flag,
      }),
    ),
    bring: orNull(listOf(text)),
    rival: orNull(group({ spares: listOf(text), measure, gain: estimate })),
    failed: orNull(group({ spares: listOf(text), measure, gain: estimate })),
  }),
};
