import {
  group,
  listOf,
  plainNumber,
  quantity,
  randomDuration,
  type Read,
  reference,
} from '../fields/index.js';

const DAY = 86400;
const time = randomDuration({ min: 0, max: DAY });
const limit = quantity('duration', { min: 1, max: 60 * DAY });

/** When a module is pulled off the loop, and what takes its place. */
export const pullForm = group(
  {
    stops: {
      field: group({
        more_than: {
          field: plainNumber({ min: 0, max: 10_000, whole: true }),
          doc: 'Stops that are still borne.',
          required: true,
        },
        within: { field: limit, doc: 'Public time in which they are counted.', required: true },
      }),
      doc: 'Pulled at a stop that makes more than so many within such a time.',
    },
    outlasts: { field: limit, doc: 'Pulled when a stop lasts longer than this.' },
    spares: {
      field: listOf(reference('a spare'), { min: 1, max: 100 }),
      doc: 'Spares that may take its place, best first; the first that is not in use goes in.',
    },
    chute: {
      // Some time, so that balls cannot go round in none at all where everything has been pulled.
      field: randomDuration({ min: 0.01, max: DAY }),
      doc: 'With no spare left a plain chute takes its place; the time balls need down it.',
    },
    swap: {
      field: time,
      doc: 'Time a minder needs to take one out and put the other in, the way there included.',
      required: true,
    },
    mend: {
      field: randomDuration({ min: 0, max: 60 * DAY }),
      doc: 'Time until it is mended and asked back, closed hours included; it stays out if not given.',
    },
  },
  {
    atLeastOne: [
      ['stops', 'outlasts'],
      ['spares', 'chute'],
    ],
  },
);

/** A recirculation lever. */
export const leverForm = group({
  watches: {
    field: listOf(reference('a module'), { min: 1, max: 2000 }),
    doc: 'Modules during whose stops it sends balls back; the next module if not given.',
  },
  takes: {
    field: time,
    doc: 'Time a minder needs to set it, the way there included; 0 s needs no minder.',
    required: true,
  },
  time: { field: time, doc: 'Time balls need back to the basket; 0 s if not given.' },
});

export type PullRead = Read<typeof pullForm>;
export type LeverRead = Read<typeof leverForm>;
