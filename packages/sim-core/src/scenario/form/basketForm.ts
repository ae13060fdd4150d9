import {
  choice,
  type Field,
  group,
  oneKey,
  orWord,
  quantity,
  randomDuration,
  type Read,
  reference,
  shortOrLong,
} from '../fields/index.js';

const DAY = 86400;
const capacity = orWord(quantity('balls', { min: 0, max: 100_000, whole: true }), 'unlimited', Infinity);
const length = quantity('length', { min: 0, max: 10_000, aboveMin: true });

const spill: Field<'spill'> = {
  schema: { const: 'spill' },
  read: (found) =>
    found.scalar === 'spill'
      ? 'spill'
      : found.wrong('wrong_type', 'spill, { back_up: { holds: 30 } } or { return: { time: 3 s } }'),
};

const whenFullForm = shortOrLong(
  spill,
  oneKey({
    back_up: {
      field: group({
        holds: {
          field: quantity('balls', { min: 0, max: 100_000, whole: true }),
          doc: 'Balls that the run-out leading here holds, those still rolling included.',
          required: true,
        },
      }),
      doc: 'They wait on the run-out that leads here; when that is full too, the module before is held up.',
    },
    return: {
      field: group({
        to: {
          field: reference('a module'),
          doc: 'Module into whose basket they run; the one before if not given.',
        },
        time: {
          // Some time, so that balls cannot go round in none at all.
          field: randomDuration({ min: 0.01, max: DAY }),
          doc: 'Time down the overflow chute.',
          required: true,
        },
      }),
      doc: 'They run down an overflow chute into another basket.',
    },
  }),
);

const basketKeys = {
  balls: {
    field: capacity,
    doc: 'Capacity in balls, or unlimited. 0: no basket, straight into a demand drive that starts at 1 and catches all.',
  },
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
};

const sizeOrBalls = [['balls', 'width']];

/** A basket: a number of balls, `unlimited`, or a group that says more. */
export const basketForm = shortOrLong(
  capacity,
  group(
    {
      ...basketKeys,
      when_full: {
        field: whenFullForm,
        doc: 'What happens to balls that find it full. spill: they fall to the floor (the default). Or back_up, or return.',
      },
    },
    { exactlyOne: sizeOrBalls },
  ),
);

/** The basket of a spare: the same, but what happens when it is full belongs to the place where it stands. */
export const spareBasketForm = shortOrLong(
  capacity,
  group(basketKeys, {
    exactlyOne: sizeOrBalls,
    notHere: {
      when_full:
        'What happens to balls that find a basket full belongs to the place in the loop, whatever stands there.',
    },
  }),
);

export type BasketRead = Read<typeof basketForm>;
export type WhenFullRead = Read<typeof whenFullForm>;
