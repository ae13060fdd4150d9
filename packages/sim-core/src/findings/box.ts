import type { RunResult } from '../experiments/index.js';
import type { LoopSpec } from '../model/spec/index.js';
import { briefPhrase, estimatePhrase, KINDS } from './phrase.js';

/** A box that is empty in a larger share of the shows than this calls for advice. */
const NOTABLE = 0.05;

/** Advice on a box of balls that runs empty. */
export function boxAdvice(result: RunResult, { crew }: LoopSpec): string[] {
  const { box_empty_risk: empty, balls_topped_up_per_show: used } = result;
  if (empty === null || crew.topUp === undefined || (empty.mean ?? 0) <= NOTABLE || (used.mean ?? 0) === 0)
    return [];
  // Where the loop locks there are too many balls in it already.
  if ((result.locked.show.mean ?? 0) > NOTABLE) return [];
  const { floor, lost } = result.series.balls_by_place;
  const atClosing = (place: typeof floor): string => {
    const balls = place.at(-1);
    return balls === undefined ? 'no balls' : briefPhrase(balls, KINDS.balls);
  };
  const [leaky] = result.modules.toSorted(
    (a, b) => (b.leaks_per_hour.mean ?? 0) - (a.leaks_per_hour.mean ?? 0),
  );
  const leak =
    leaky && (leaky.leaks_per_hour.mean ?? 0) > 0
      ? ` (${leaky.id} leaks most, ${briefPhrase(leaky.leaks_per_hour, KINDS.ballsPerHour)})`
      : '';
  return [
    `The box of ${crew.topUp.box} balls is empty at closing time in ${estimatePhrase(empty, KINDS.share)} of the shows; by then ${atClosing(floor)} lie on the floor and ${atClosing(lost)} are lost. ${crew.sweep ? 'Sweep more often' : 'Let somebody sweep'} before balls are topped up, mend what loses them${leak}, or bring a fuller box: but balls that come back from the floor on top of it are too many.`,
  ];
}
