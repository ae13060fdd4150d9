import { group, listOf, quantity, type Read, timeOfDay } from '../fields/index.js';

const DAY = 86400;
const upToTwoMonths = (min: number) => quantity('duration', { min, max: 60 * DAY });

const dayForm = group({
  opens: { field: timeOfDay, doc: 'Time of day at which the public comes in.', required: true },
  closes: { field: timeOfDay, doc: 'Time of day at which it leaves.', required: true },
  breaks: {
    field: listOf(
      group({
        from: { field: timeOfDay, doc: 'Time of day at which the loop is switched off.', required: true },
        to: { field: timeOfDay, doc: 'Time of day at which it goes on.', required: true },
      }),
      { min: 1, max: 20 },
    ),
    doc: 'Times within the day at which the loop stands still.',
  },
});

/** When the public is there: one stretch of time, or days with their opening times. */
export const showForm = group(
  {
    opens: {
      field: timeOfDay,
      doc: 'Time of day at which the public comes in, such as 10:00; for labels and shifts.',
    },
    lasts: { field: upToTwoMonths(1), doc: 'Length of the public time. Needed, or days instead.' },
    days: {
      field: listOf(dayForm, { min: 1, max: 60 }),
      doc: 'Instead of opens and lasts: the days of the show, one after the other.',
    },
    warm_up: {
      field: upToTwoMonths(0),
      doc: 'Time at the start that is simulated but not measured; 0 s if not given.',
    },
  },
  { exactlyOne: [['lasts', 'days']], atMostOne: [['opens', 'days']] },
);

export type ShowRead = Read<typeof showForm>;
export type DaysRead = NonNullable<NonNullable<ShowRead>['days']>;
