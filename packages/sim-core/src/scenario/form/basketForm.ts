import { choice, group, orWord, quantity, type Read, shortOrLong } from '../fields/index.js';

const capacity = orWord(quantity('balls', { min: 1, max: 100_000, whole: true }), 'unlimited', Infinity);
const length = quantity('length', { min: 0, max: 10_000, aboveMin: true });

/** A basket: a number of balls, `unlimited`, or a group that says more. */
export const basketForm = shortOrLong(
  capacity,
  group(
    {
      balls: { field: capacity, doc: 'Capacity in balls, or unlimited.' },
      width: { field: length, doc: 'Inner width; with depth and height instead of balls.' },
      depth: { field: length, doc: 'Inner depth.' },
      height: { field: length, doc: 'Inner height.' },
      packing: {
        field: quantity('share', { min: 0.3, max: 0.74 }),
        doc: 'Share of the volume filled by balls: 0.60 poured in (the default), 0.64 shaken down, about 0.56 in a narrow basket.',
      },
      order: {
        field: choice(['fifo', 'mixed']),
        doc: 'fifo: first in, first out (the default). mixed: drawn at random.',
      },
      when_full: {
        field: choice(['spill']),
        doc: 'What happens to balls that find it full. spill: they fall to the floor.',
      },
    },
    { exactlyOne: [['balls', 'width']] },
  ),
);

export type BasketRead = Read<typeof basketForm>;
