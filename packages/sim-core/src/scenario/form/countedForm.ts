import { group, named, plainNumber, quantity, type Read } from '../fields/index.js';

const MOST = 1_000_000_000;
const whole = plainNumber({ min: 0, max: MOST, whole: true });
const many = plainNumber({ min: 1, max: MOST, whole: true });
const DECADE = 3650 * 86400;

/** What stops were counted over, as the trigger counts. */
const over = {
  in: {
    field: quantity('duration', { min: 0, max: DECADE, aboveMin: true }),
    doc: 'Counted in so much time, such as 55 min: of running where the trigger is running, of public time where it is clock.',
  },
  cycles: { field: many, doc: 'Counted over so many cycles, where the trigger is per_cycle.' },
  balls: { field: many, doc: 'Counted over so many balls picked, where the trigger is per_ball.' },
};

const overSo = { exactlyOne: [['in', 'cycles', 'balls']] };
const stops = { field: whole, doc: 'Stops of this cause that were counted.', required: true };

const causeForm = group(
  {
    stops,
    ...over,
    clears: {
      field: whole,
      doc: 'Clear times behind the time of the remedy; without them that time is taken at its word.',
    },
    crowded: {
      field: group({ stops, ...over }, overSo),
      doc: 'The same while the basket was crowded, where that was told apart; the figures beside it are then those below.',
    },
    prior: {
      field: group(
        {
          stops: {
            field: plainNumber({ min: 0, max: MOST }),
            doc: 'Stops, need not be whole.',
            required: true,
          },
          ...over,
          cycles: { ...over.cycles, field: plainNumber({ min: 0, max: MOST }) },
          balls: { ...over.balls, field: plainNumber({ min: 0, max: MOST }) },
        },
        overSo,
      ),
      doc: 'What is known of others of its kind, as if it had been counted besides: so many stops over so much.',
    },
  },
  overSo,
);

/** What the figures of a module were taken from: how few counts stand behind them. */
export const countedForm = group({
  cycles: { field: many, doc: 'Cycle times behind cycle.' },
  caught: {
    field: group({
      of: { field: many, doc: 'Balls the mechanism reached for.', required: true },
      balls: { field: whole, doc: 'How many of them it caught.', required: true },
    }),
    doc: 'Balls behind catch.',
  },
  leaked: {
    field: group({
      of: { field: many, doc: 'Balls it let go.', required: true },
      balls: { field: whole, doc: 'How many of them fell.', required: true },
    }),
    doc: 'Balls behind leak.',
  },
  stops: {
    field: named('cause of stopping', causeForm, {
      max: 50,
      example: 'Such as stops: { jam: { stops: 3, in: 55 min, clears: 3 } }.',
    }),
    doc: 'What is behind each cause of stopping, under its name.',
  },
});

export type CountedRead = NonNullable<Read<typeof countedForm>>;
export type CauseCountedRead = NonNullable<Read<typeof causeForm>>;
