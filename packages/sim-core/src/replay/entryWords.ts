import { formatSeconds } from '../units/index.js';
import type { LogEntry } from './logEntry.js';
import type { PlaceNames } from './placeNames.js';

/** One entry of a log as a sentence; names are those of the moment. */
export function entryWords(entry: LogEntry, names: PlaceNames): string {
  const { kind, module, cause, balls = 0, seconds, minder, what = '' } = entry;
  const name = names.shown(module);
  const own = names.module(module);
  const after = seconds === undefined ? '' : ` after ${formatSeconds(seconds)}`;
  const stood = seconds === undefined ? '' : ` (stood still for ${formatSeconds(seconds)})`;
  const who = minder === undefined ? 'a minder' : `minder ${minder}`;
  switch (kind) {
    case 'stops':
      return `${name} stops${cause === undefined ? '' : ` (${cause})`}${balls > 0 ? `; ${ballsAnd(balls, 'fall')} out` : ''}`;
    case 'noticed':
      return `the stop of ${name} is noticed, but no minder is free`;
    case 'sets_out':
      return `${who} sets out ${errand(what, name, own)}`;
    case 'cleared':
      return `${name} cleared${after}`;
    case 'freed_itself':
      return `${name} has freed itself${after}`;
    case 'wanted_out':
      return `${own} is to be pulled`;
    case 'pulled':
      return `${own} is out; ${what} stands in its place${stood}`;
    case 'mended':
      return `${own} is mended`;
    case 'put_back':
      return `${own} is back in its place${what === '' ? '' : `; ${what} is out`}${stood}`;
    case 'lever_back':
      return `the lever of ${own} sends balls back`;
    case 'lever_forward':
      return `the lever of ${own} sends balls on again`;
    case 'lever_left':
      return `${who} finds the lever of ${own} as it should be`;
    case 'spills':
      return `${ballsAnd(balls, 'spill')} at ${own}`;
    case 'leaks':
      return `${ballsAnd(balls, 'leak')} at ${name}`;
    case 'swept':
      return balls === 0
        ? `swept; no ball goes into ${own}`
        : `${ballsAnd(balls, 'go', 'goes')} from the floor into ${own}`;
    case 'topped_up':
      return balls === 0
        ? `no ball goes from the box into ${own}`
        : `${ballsAnd(balls, 'go', 'goes')} from the box into ${own}`;
    case 'duty':
      return `${what === '0' ? 'no' : what} ${what === '0' || what === '1' ? 'minder' : 'minders'} on duty from now on`;
    case 'locked':
      return `nothing can move any more; held up: ${what}`;
    case 'lost':
      return `${ballsAnd(balls, 'are', 'is')} not found again`;
  }
}

/** What a minder sets out for; the log says "it" for the module. */
function errand(what: string, name: string, own: string): string {
  if (what === 'clear') return `to clear ${name}`;
  if (what === 'set the lever') return `to set the lever of ${own}`;
  return `to ${what.replace(/\bit\b/, own)}`;
}

/** "1 ball falls", "3 balls fall". */
function ballsAnd(balls: number, verb: string, one = `${verb}s`): string {
  return balls === 1 ? `1 ball ${one}` : `${balls} balls ${verb}`;
}
