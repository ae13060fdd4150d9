import {
  estimate,
  group,
  listOf,
  number,
  numberOrNull,
  type Schema,
  text,
  whole,
} from '../experiments/index.js';

const rate: Schema = {
  anyOf: [group({ rate: number, low: number, high: number, confidence: number }), { type: 'null' }],
};
const textOrNull: Schema = { type: ['string', 'null'] };

/** The details of what is told after a show. */
export const DEBRIEF_DETAILS: Schema = group({
  modules: listOf(
    group({
      module: text,
      builder: textOrNull,
      watched_s: number,
      running_s: number,
      stops: whole,
      stops_per_hour: rate,
      another_day: group({ low: whole, high: whole, confidence: number }),
      causes: listOf(group({ cause: text, stops: whole, stopped_s: number })),
      stopped_s: number,
      longest_s: number,
      open: whole,
      spilled: number,
      spilled_while_stopped: number,
      trend: { enum: ['more often', 'less often', null] },
      trend_chance: numberOrNull,
      among_others: { enum: ['more often', 'less often', 'cannot be told'] },
    }),
  ),
  gains: {
    anyOf: [
      listOf(
        group(
          {
            id: text,
            builder: text,
            gain: estimate,
            dropped_after: { type: ['integer', 'null'], minimum: 1 },
          },
          ['builder'],
        ),
      ),
      { type: 'null' },
    ],
  },
  gains_on: textOrNull,
  pages: listOf(
    group({
      builder: textOrNull,
      sentences: listOf(text),
      modules: listOf(group({ module: text, sentences: listOf(text) })),
    }),
  ),
});
