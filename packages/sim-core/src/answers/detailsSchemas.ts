import {
  estimate,
  flag,
  group,
  listOf,
  MEASURES,
  numberOrNull,
  type Schema,
  text,
  whole,
} from '../experiments/index.js';
import type { Question } from './answer.js';
import { INLINE_DETAILS } from './inlineSchema.js';

const measure: Schema = { enum: MEASURES.map(({ id }) => id) };

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
  inline: INLINE_DETAILS,
};
