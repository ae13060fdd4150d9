import { estimatePhrase, KINDS, type RunResult } from '@lapwright/sim-core';

/** Balls that leave the path, and balls from the box that take their place. */
export function boxCaption(result: RunResult): string {
  const { balls_topped_up_per_show: used, box_left_balls: left, box_empty_risk: empty } = result;
  const { floor, lost } = result.series.balls_by_place;
  const end = (place: typeof floor): string => {
    const estimate = place.at(-1);
    return estimate === undefined || estimate.mean === null || estimate.mean === 0
      ? 'none'
      : estimatePhrase(estimate, KINDS.plain);
  };
  const from =
    (used.mean ?? 0) === 0
      ? 'No ball had to come from the box.'
      : `${estimatePhrase(used, KINDS.balls)} come from the box in a show.`;
  const rest =
    left === null || empty === null
      ? ''
      : ` At closing time ${estimatePhrase(left, KINDS.balls)} are left in it; the chance that it is empty then is ${estimatePhrase(empty, KINDS.share)}.`;
  return `Balls beside the path over the show, averaged. ${from}${rest} On the floor at closing time: ${end(floor)}; not found again: ${end(lost)}.`;
}
