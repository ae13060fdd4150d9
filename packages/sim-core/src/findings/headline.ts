import type { RunResult } from '../experiments/index.js';
import type { Estimate } from '../statistics/index.js';
import { formatShare } from '../units/index.js';
import { heldUp } from './heldUp.js';
import { lock } from './lock.js';
import { briefPhrase, estimatePhrase, KINDS } from './phrase.js';
import { mostPulled } from './pulls.js';

/**
 * What a run says, in plain sentences with their intervals, four paragraphs: flow (and what locks or holds it up), laps,
 * spills (and what goes back or comes from the box), crew (and what is taken out of the loop).
 *
 * @example
 * headline(exampleResult).length // => 4
 */
export function headline(result: RunResult): string[] {
  return [flowSentence(result), lapSentence(result), spillSentence(result), crewSentence(result)];
}

function flowSentence(result: RunResult): string {
  const { throughput_bps: flow, scenario } = result;
  const loop = scenario.shape === 'loop';
  const locks = lock(result);
  const first = locks === undefined ? '' : `${locks.statement}. `;
  if (flow.mean === null || flow.mean === 0)
    return `${first}${loop ? 'No balls go round.' : 'No balls come out at the end.'}`;
  return `${first}${loop ? 'The loop passes' : 'The chain passes'} ${estimatePhrase(flow, { unit: 'balls per second', one: 'ball per second' })}.${movingPhrase(result)}${heldUpPhrase(result)}`;
}

/** Minutes without a ball at the counter, from this share on. */
const OFTEN_STILL = 0.01;

function movingPhrase({ moving_share: moving }: RunResult): string {
  if (moving.mean === null || moving.mean > 1 - OFTEN_STILL) return '';
  return ` In ${estimatePhrase(moving, KINDS.share)} of the minutes a ball passes the counter; in the others none does.`;
}

function heldUpPhrase(result: RunResult): string {
  const found = heldUp(result);
  if (found === undefined) return '';
  const { most, by } = found;
  return ` ${most.id} is held up most, ${estimatePhrase(most.held_up_share, KINDS.share)} of the time${by ? `, by ${by.id}` : ''}.`;
}

function lapSentence({ loop_time_s: lap, scenario, broken_lap_share: broken }: RunResult): string {
  const loop = scenario.shape === 'loop';
  const what = loop ? 'A lap' : 'The way through';
  if (lap.mean.mean === null) return `${what} was not finished by any ball in the time of the show.`;
  const spread =
    lap.p05.mean === null || lap.p95.mean === null
      ? ''
      : ` Nine ${loop ? 'laps' : 'balls'} in ten take between ${briefPhrase(lap.p05, KINDS.time)} and ${briefPhrase(lap.p95, KINDS.time)}.`;
  const floor =
    broken.mean === null || broken.mean < 0.005
      ? ''
      : ` In ${briefPhrase(broken, KINDS.share)} of the ${loop ? 'laps' : 'ways'} the ball lies on the floor for a while; these are not counted.`;
  return `${what} takes ${estimatePhrase(lap.mean, KINDS.time)}.${spread}${floor}`;
}

function spillSentence(result: RunResult): string {
  const { spills_per_hour: spills, overflow_risk: risk, replications } = result;
  if (spills.mean === 0) {
    const { high } = risk.show;
    const limit =
      high === null
        ? ''
        : high === 0
          ? ', and none can'
          : `; the ${formatShare(risk.show.confidence)} interval reaches up to ${formatShare(high)} of such shows`;
    return `No basket ran over in ${shows(replications)}${limit}.${leakPhrase(result)}${sentBackPhrase(result)}${boxPhrase(result)}`;
  }
  const chances = [riskPhrase(risk.hour, 'public hour'), riskPhrase(risk.show, 'show')].filter(
    (part) => part !== '',
  );
  return `Baskets run over: ${estimatePhrase(spills, KINDS.ballsPerHour)} fall. ${chances.join(' ')}${leakPhrase(result)}${sentBackPhrase(result)}${boxPhrase(result)}`;
}

function sentBackPhrase({ returned_per_hour: chutes, recirculated_per_hour: levers }: RunResult): string {
  const down =
    (chutes.mean ?? 0) > 0 ? ` Overflow chutes take ${estimatePhrase(chutes, KINDS.ballsPerHour)} back.` : '';
  const round =
    (levers.mean ?? 0) > 0
      ? ` Levers send ${estimatePhrase(levers, KINDS.ballsPerHour)} round their own module again.`
      : '';
  return down + round;
}

function boxPhrase({ balls_topped_up_per_show: used, box_left_balls: left }: RunResult): string {
  if ((used.mean ?? 0) === 0) return '';
  const rest =
    left === null || left.mean === null
      ? ''
      : `; ${briefPhrase(left, KINDS.balls)} are left in it at closing time`;
  return ` ${estimatePhrase(used, KINDS.balls)} come from the box in a show${rest}.`;
}

function leakPhrase({ leaks_per_hour: leaks }: RunResult): string {
  return (leaks.mean ?? 0) > 0
    ? ` Besides, ${estimatePhrase(leaks, KINDS.ballsPerHour)} leak to the floor.`
    : '';
}

function riskPhrase(risk: Estimate | null, what: string): string {
  if (risk === null || risk.mean === null) return '';
  return `Chance of a spill in a ${what}: ${estimatePhrase(risk, KINDS.share)}.`;
}

function crewSentence(result: RunResult): string {
  const { crew, stops_per_hour: stops } = result;
  if (stops.mean === 0) return 'Nothing stopped.';
  const how = `All modules together make ${estimatePhrase(stops, KINDS.stopsPerHour)}.`;
  const open =
    (crew.stops_open_at_closing.mean ?? 0) >= 0.05
      ? ` At closing time ${estimatePhrase(crew.stops_open_at_closing, KINDS.plain)} stops are still not cleared.`
      : '';
  const pulled = pullPhrase(result);
  if (crew.time_to_clear_s.mean === null) return how + open + pulled;
  const busy =
    crew.busy_share.mean === null
      ? ''
      : ` The minders are busy ${estimatePhrase(crew.busy_share, KINDS.share)} of their time.`;
  return `${how} A stopped module waits ${estimatePhrase(crew.time_to_clear_s, KINDS.time)} until a minder has cleared it.${busy}${open}${pulled}`;
}

function pullPhrase(result: RunResult): string {
  const most = mostPulled(result);
  if (most === undefined) return '';
  return ` Modules are taken out of the loop ${estimatePhrase(result.pulls_per_show, KINDS.timesPerShow)}; ${most.id} is out most, ${estimatePhrase(most.pulled_share, KINDS.share)} of the time.`;
}

/**
 * A number of simulated shows in words.
 *
 * @example
 * [shows(1), shows(100)] // => ['1 simulated show', '100 simulated shows']
 */
export function shows(replications: number): string {
  return replications === 1 ? '1 simulated show' : `${replications} simulated shows`;
}
