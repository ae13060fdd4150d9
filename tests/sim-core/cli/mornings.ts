import { readFileSync } from 'node:fs';

/** The two days of the example, cut down to a morning each: a calm loop for questions that do not need whole days. */
export const MORNINGS: string = readFileSync('scenarios/two-days.yaml', 'utf8')
  .replace('closes: 17:00', 'closes: 13:30')
  .replace('breaks: [{ from: 13:00, to: 13:30 }]', 'breaks: [{ from: 12:30, to: 12:45 }]')
  .replace('closes: 16:00', 'closes: 12:15')
  .replace('from: 10:00, to: 17:00', 'from: 10:00, to: 13:30')
  .replace('from: day 2 14:00, to: day 2 16:00', 'from: day 2 11:00, to: day 2 12:15')
  .replace('day 1 16:30', 'day 1 13:05');
