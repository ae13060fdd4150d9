import { group, plainNumber, quantity, type Read } from '../fields/index.js';

const DAY = 86400;

/** What the house allows: limits that a module must keep to be in the loop. They change nothing in the simulation. */
export const houseRulesForm = group(
  {
    spills_per_hour: {
      field: plainNumber({ min: 0, max: 1_000_000 }),
      doc: 'Balls spilled per public hour, on average: so many at most.',
    },
    overflow_risk: {
      field: quantity('share', { min: 0, max: 1 }),
      doc: 'Chance of a spill in a full public hour: so much at most.',
    },
    least_throughput: {
      field: quantity('rate', { min: 0, max: 1000, aboveMin: true }),
      doc: 'Balls passing the counter, on average: so many at least, such as 0.9 bps.',
    },
    longest_lap: {
      field: quantity('duration', { min: 1, max: 60 * DAY }),
      doc: 'Loop time that all but the slowest 5 % of the laps of a show keep to, on average over shows.',
    },
  },
  { atLeastOne: [['spills_per_hour', 'overflow_risk', 'least_throughput', 'longest_lap']] },
);

export type HouseRulesRead = Read<typeof houseRulesForm>;
