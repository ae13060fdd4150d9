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
import { DEBRIEF_DETAILS } from './debriefSchema.js';
import { FIT_DETAILS } from './fitSchema.js';
import { INLINE_DETAILS } from './inlineSchema.js';
import { MATCH_DETAILS } from './matchSchema.js';

const measure: Schema = { enum: MEASURES.map(({ id }) => id) };

const whenFull: Schema = { enum: ['spill', 'back_up', 'return'] };
const times = group({ p05: estimate, p50: estimate, p95: estimate });
const baskets = listOf(
  group({ id: text, when_full: whenFull, floods: estimate, other_way: estimate, first: times }),
);
const estimateOrNull: Schema = { anyOf: [estimate, { type: 'null' }] };
const criteria = listOf(group({ measure, margin: { type: 'number', minimum: 0 } }));

function orNull(schema: Schema): Schema {
  return { anyOf: [schema, { type: 'null' }] };
}

/** The details of the answer to each question. */
export const DETAILS: Readonly<Record<Question, Schema>> = {
  enough: group({
    on: measure,
    asked: { anyOf: [group({ absolute: number }), group({ relative: number })] },
    narrow: flag,
    replications: whole,
    at_most: whole,
    estimate,
    would_take: { type: ['integer', 'null'], minimum: 0 },
    measures: listOf(group({ measure, estimate, nine_in_ten: estimate })),
  }),
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
    replications: whole,
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
  inline: INLINE_DETAILS,
  'when-stops': group({
    module: text,
    at_s: number,
    stop_s: numberOrNull,
    clear_s: numberOrNull,
    watched_s: number,
    sure: number,
    replications: whole,
    left_out: whole,
    pulled: estimate,
    pulled_after: orNull(times),
    stood: times,
    full: times,
    upstream: baskets,
    downstream: baskets,
    spilled: group({ while_stopped: estimate, after: estimate, all: estimate }),
    surge: group({
      handed_on_per_minute: estimate,
      without: estimate,
      baskets: listOf(group({ id: text, peak: estimate, without: estimate })),
    }),
    calm: group({ up_to_balls: whole, share: estimate, after: times, at: times }),
    actions: listOf(
      group(
        {
          kind: { enum: ['pull', 'lever'] },
          what: listOf(text),
          takes_s: number,
          falls: estimate,
          falls_at_once: estimate,
          latest: estimateOrNull,
          lasts: group({ p05: estimate, p50: estimate }),
        },
        ['lasts'],
      ),
    ),
    handed_on: listOf(group({ from_s: number, mean: number, p05: number, p95: number, without: number })),
  }),
  'flood-card': group({
    modules: listOf(
      group(
        {
          id: text,
          title: text,
          builder: text,
          when_full: whenFull,
          returns_to: text,
          p05: estimate,
          p50: estimate,
          p95: estimate,
          seen: whole,
          reckoned: flag,
          first: group({
            kind: { enum: ['lever', 'swap', 'by_hand'] },
            what: text,
            takes_s: number,
            within_s: numberOrNull,
          }),
        },
        ['title', 'builder', 'returns_to'],
      ),
    ),
    watched_s: number,
    from_s: number,
    to_s: number,
    replications: whole,
    moments: whole,
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
    rules: listOf(group({ name: text, measure, side: { enum: ['at most', 'at least'] }, limit: number })),
    want: { enum: ['most', 'least'] },
    recommended: numberOrNull,
    at_the_end: flag,
    rival: orNull(group({ value: number, measure, gain: estimate })),
    next: orNull(group({ value: number, measure, gain: estimate })),
    now: listOf(group({ measure, estimate })),
    changes: listOf(text),
    values: listOf(
      group({
        value: number,
        measures: listOf(group({ measure, estimate })),
        verdict: { enum: ['yes', 'no', 'undecided', 'more than it takes', 'not judged'] },
        decided_by: { type: ['string', 'null'] },
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
        gains: listOf(group({ measure, gain: estimate })),
        judged: flag,
      }),
    ),
    bring: orNull(listOf(text)),
    rival: orNull(group({ spares: listOf(text), measure, gain: estimate })),
    failed: orNull(group({ spares: listOf(text), measure, gain: estimate })),
  }),
  'how-rare': group({
    module: { type: ['string', 'null'] },
    method: { enum: ['splitting', 'plain'] },
    levels: listOf(group({ share: number, copies: whole })),
    in_a_show: estimate,
    in_an_hour: estimate,
    per_hour: estimate,
    starts: whole,
    starts_with_spill: whole,
    shows: number,
    pilot_shows: number,
    worth_shows: numberOrNull,
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
  fit: FIT_DETAILS,
  match: MATCH_DETAILS,
  debrief: DEBRIEF_DETAILS,
};
