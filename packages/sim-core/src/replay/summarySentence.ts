import type { LoopSpec } from '../model/spec/index.js';
import { formatSeconds } from '../units/index.js';
import { momentLabel } from './momentLabel.js';
import type { TimeWindow } from './timeWindow.js';
import type { WindowTotals } from './windowTotals.js';

/**
 * What happened in a window, in one sentence.
 *
 * @example
 * summarySentence({ stops: 0, spilled: 0, leaked: 0, dropped: 0, lost: 0, pulls: 0, stopped: [], spills: [] }, { from: 0, to: 3600 }, exampleLoop) // => 'A calm show: nothing stopped and no ball fell.'
 */
export function summarySentence(
  totals: WindowTotals,
  window: TimeWindow,
  { modules, show }: LoopSpec,
): string {
  const { stops, spilled, leaked, dropped, lost, pulls, lockedAt, longestStop } = totals;
  const name = windowName(window, show.seconds);
  const happened = [spilled, leaked, lost, pulls].some((number) => number > 0);
  if (!happened && longestStop === undefined && lockedAt === undefined)
    return `A calm ${name}: nothing stopped and no ball fell.`;
  const longest =
    longestStop &&
    `the longest ${formatSeconds(longestStop.to - longestStop.from)} at ${modules[longestStop.module]?.id}${longestStop.open ? ' and not over at closing time' : ''}`;
  const parts = [
    ...(lockedAt === undefined ? [] : [`the loop locked at ${momentLabel(show, lockedAt)}`]),
    `${count(stops, 'stop')}${longest === undefined ? '' : `, ${longest}`}`,
    `${count(spilled, 'ball')} spilled`,
    ...(leaked > 0 ? [`${leaked} leaked`] : []),
    ...(dropped > 0 ? [`${dropped} fell out in stops`] : []),
    `${lost === 0 ? 'none' : lost} lost for good`,
    ...(pulls > 0 ? [pulls === 1 ? '1 module pulled' : `modules pulled ${pulls} times`] : []),
  ];
  return `In this ${name}: ${parts.join('; ')}.`;
}

function windowName({ from, to }: TimeWindow, showSeconds: number): string {
  if (from === 0 && to === showSeconds) return 'show';
  return to - from === 3600 ? 'hour' : `stretch of ${formatSeconds(to - from)}`;
}

function count(n: number, what: string): string {
  return `${n === 0 ? 'no' : n} ${what}${n === 1 ? '' : 's'}`;
}
