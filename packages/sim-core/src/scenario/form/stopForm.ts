import {
  group,
  listOf,
  mapped,
  moment,
  quantity,
  randomDuration,
  type Read,
  shortOrLong,
  plainNumber,
} from '../fields/index.js';

const DAY = 86400;
const share = quantity('share', { min: 0, max: 1 });
const time = randomDuration({ min: 0, max: DAY });

/** One cause of stopping: a trigger, a remedy, and what goes with them. */
export const stopForm = group(
  {
    per_cycle: { field: share, doc: 'Trigger: chance of a stop in each cycle.' },
    per_ball: { field: share, doc: 'Trigger: chance of a stop for each ball picked.' },
    running: {
      field: randomDuration({ min: 0.01, max: 3650 * DAY }),
      doc: 'Trigger: running time from one stop to the next, such as { exponential: { mean: 15 min } }.',
    },
    clock: {
      field: randomDuration({ min: 0.01, max: 3650 * DAY }),
      doc: 'Trigger: public time from one stop to the next, whether it runs or waits for balls.',
    },
    at: {
      field: shortOrLong(
        mapped(moment, (one) => [one]),
        listOf(moment, { min: 1, max: 1000 }),
      ),
      doc: 'Trigger: planned stops at these times, after the opening (1 h 30 min) or by the clock (11:30, every day; day 2 11:30).',
    },
    crowded: {
      field: group({
        above: {
          field: share,
          doc: 'The basket counts as crowded above this share of its capacity.',
          required: true,
        },
        times: {
          field: plainNumber({ min: 0, max: 10_000 }),
          doc: 'Factor on the trigger while it is crowded.',
          required: true,
        },
      }),
      doc: 'Stops more often while its basket is crowded.',
    },
    drops: {
      field: share,
      doc: 'Chance that a ball in the mechanism falls to the floor when it stops; 0 if not given.',
    },
    itself: { field: time, doc: 'Remedy: it frees itself after this time.' },
    crew: {
      field: group({
        notice: { field: time, doc: 'Time until the stop is noticed; from the crew section if not given.' },
        walk: { field: time, doc: 'Time a minder needs to get there; from the crew section if not given.' },
        clear: { field: time, doc: 'Time of work once there.', required: true },
      }),
      doc: 'Remedy: a minder clears it.',
    },
  },
  {
    exactlyOne: [
      ['per_cycle', 'per_ball', 'running', 'clock', 'at'],
      ['itself', 'crew'],
    ],
    atMostOne: [
      ['clock', 'crowded'],
      ['at', 'crowded'],
    ],
  },
);

export type StopRead = Read<typeof stopForm>;
