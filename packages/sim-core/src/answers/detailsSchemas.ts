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

const estimateOrNull: Schema = { anyOf: [estimate, { type: 'null' }] };
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
  'best-of': group({
    on: measure,
    procedure: { enum: ['in turn', 'two stages'] },
    verdict: { enum: ['best', 'one of these', 'nothing to choose by'] },
    best: { type: ['string', 'null'] },
    left: listOf(text),
    promised: { type: 'number', minimum: 0, maximum: 1 },
    confidence: { type: 'number', minimum: 0, maximum: 1 },
    zone: { type: 'number', minimum: 0 },
    zone_from: { type: ['string', 'null'] },
    first_look: whole,
    most: whole,
    enough: { type: ['integer', 'null'], minimum: 1 },
    left_out: whole,
    contenders: listOf(
      group({
        label: text,
        mean: estimate,
        behind: estimateOrNull,
        shows: whole,
        dropped_after: { type: ['integer', 'null'], minimum: 1 },
      }),
    ),
  }),
  'best-order': group({
    on: measure,
    verdict: { enum: ['better', 'not surely better', 'nothing found'] },
    order_before: listOf(text),
    order: listOf(text),
    before: estimateOrNull,
    after: estimateOrNull,
    gain: estimateOrNull,
    moves: listOf(
      group({
        modules: listOf(text),
        after: { type: ['string', 'null'] },
        gain: estimateOrNull,
        undone_with: listOf(text),
      }),
    ),
    steps: listOf(group({ module: text, side: { enum: ['after', 'before'] }, beside: text })),
    rules: listOf(text),
    broken_today: listOf(text),
    most_moved: whole,
    budget: whole,
    search_shows: whole,
    search_orders: whole,
  }),
};
