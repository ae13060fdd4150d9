import {
  choice,
  group,
  listOf,
  moment,
  plainNumber,
  quantity,
  randomDuration,
  type Read,
  reference,
} from '../fields/index.js';

const DAY = 86400;
const count = plainNumber({ min: 0, max: 1000, whole: true });
const balls = quantity('balls', { min: 0, max: 1_000_000, whole: true });
const time = randomDuration({ min: 0, max: DAY });

/** The people who mind the loop. */
export const crewForm = group(
  {
    minders: { field: count, doc: 'People on duty all the time.' },
    shifts: {
      field: listOf(
        group({
          from: {
            field: moment,
            doc: 'Beginning, after the opening (0 h) or by the clock (10:00, every day; day 2 10:00).',
            required: true,
          },
          to: { field: moment, doc: 'End.', required: true },
          minders: { field: count, doc: 'People on duty in this shift.', required: true },
        }),
        { min: 1, max: 200 },
      ),
      doc: 'Who is on duty when; shifts that overlap add up.',
    },
    rule: {
      field: choice(['first_come', 'fullest_first']),
      doc: 'Who is served next: first_come (the default), or fullest_first: where the basket is fullest.',
    },
    notice: { field: time, doc: 'Time until somebody notices a stop, where the cause does not say.' },
    walk: { field: time, doc: 'Time to walk to a stopped module, where the cause does not say.' },
    sweep: {
      field: group({
        every: {
          field: quantity('duration', { min: 1, max: 60 * DAY }),
          doc: 'How often balls are picked up from the floor.',
          required: true,
        },
        into: { field: reference('a module'), doc: 'Module whose basket they are put into.', required: true },
        takes: { field: time, doc: 'Time a minder is busy with it; 0 s (the default) needs no minder.' },
        lost: {
          field: quantity('share', { min: 0, max: 1 }),
          doc: 'Share of the fallen balls never found; 0 if not given.',
        },
      }),
      doc: 'Picking up balls from the floor.',
    },
    top_up: {
      field: group({
        below: { field: balls, doc: 'Asked for when fewer balls are left on the path.', required: true },
        up_to: { field: balls, doc: 'Balls on the path afterwards, if the box has enough.', required: true },
        box: { field: balls, doc: 'Balls in the box at the start.', required: true },
        into: { field: reference('a module'), doc: 'Module whose basket they are put into.', required: true },
        takes: { field: time, doc: 'Time a minder is busy with it; 0 s (the default) needs no minder.' },
      }),
      doc: 'Putting new balls from a box into a loop that has lost some.',
    },
  },
  { exactlyOne: [['minders', 'shifts']] },
);

export type CrewRead = Read<typeof crewForm>;
