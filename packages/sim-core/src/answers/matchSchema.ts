import { group, listOf, number, numberOrNull, type Schema, text, whole } from '../experiments/index.js';

const band: Schema = {
  anyOf: [
    group({ mean: number, low: number, high: number, confidence: number, replications: whole }),
    { type: 'null' },
  ],
};

/** The details of the answer to whether a file matches a log. */
export const MATCH_DETAILS: Schema = group({
  verdict: { enum: ['fits', 'differs', 'nothing to compare'] },
  level: number,
  replications: whole,
  out: listOf(group({ module: text, from_s: number, to_s: number })),
  figures: listOf(
    group({
      figure: { enum: ['stops', 'clear_s', 'spilled', 'passes', 'lap_s'] },
      module: { type: ['string', 'null'] },
      from_s: numberOrNull,
      to_s: numberOrNull,
      logged: number,
      predicted: band,
      chance: number,
      verdict: { enum: ['fits', 'outside its band', 'differs'] },
    }),
  ),
});
