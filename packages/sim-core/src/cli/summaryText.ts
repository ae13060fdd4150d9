import type { RunResult } from '../experiments/index.js';
import {
  alikeReason,
  briefPhrase,
  intervalPhrase,
  type Kind,
  KINDS,
  lock,
  meanPhrase,
  momentKind,
  shows,
  tellsOfMoving,
  worstSpillers,
} from '../findings/index.js';
import type { Estimate } from '../statistics/index.js';
import { formatSeconds, formatShare } from '../units/index.js';
import { table, wrap } from './layout.js';

/** Lines of a plain terminal; the last one is for the prompt. */
const LINES = 23;

/**
 * The summary of a run: what fits one screen. That the loop locks goes first, then figures with their intervals, then
 * what to do; what does not fit any more is left to the report.
 *
 * @param advice as `advice` gives it
 * @example
 * summaryText(exampleResult, []).startsWith('Example: 2 simulated shows of 1 h') // => true
 */
export function summaryText(result: RunResult, advice: readonly string[]): string {
  const title = wrap(titleOf(result));
  const locks = lock(result) !== undefined;
  const [first, ...others] = advice.map((sentence) => wrap(`> ${sentence}`, '  '));
  const urgent = locks && first !== undefined ? [first] : [];
  const todo = locks ? others : [...(first === undefined ? [] : [first]), ...others];
  const worst = worstSpillers(result, 4).map(
    ({ id, spills_per_hour: spills }) => `${id} ${briefPhrase(spills, KINDS.plain)}`,
  );
  const spillers =
    worst.length > 0 ? [wrap(`Most spills (balls per hour, 95 % intervals): ${worst.join(', ')}.`)] : [];
  const rows = figures(result);
  const few = rows.filter(({ spare }) => !spare);
  // From all of it to the least; the first that fits is taken.
  const choices: [readonly Line[], readonly string[]][] = [
    [rows, [...spillers, ...todo.slice(0, 2)]],
    [rows, [...spillers, ...todo.slice(0, 1)]],
    [few, [...spillers, ...todo.slice(0, 1)]],
    [rows, todo.slice(0, 1)],
    [few, todo.slice(0, 1)],
    [few, []],
  ];
  const texts = choices.map(([lines, tail]) =>
    [title, ...urgent, tableOf(lines, result), ...why(lines, result), ...tail].join('\n\n'),
  );
  return `${texts.find((text) => text.split('\n').length <= LINES) ?? texts.at(-1) ?? ''}\n`;
}

/** Why a figure of the table has no interval. */
function why(lines: readonly Line[], result: RunResult): string[] {
  const reason = lines.some(({ cells }) => cells.at(-1) === 'no interval') ? alikeReason(result) : undefined;
  return reason === undefined ? [] : [wrap(reason)];
}

function titleOf(result: RunResult): string {
  const { scenario, replications, seed, partial, replications_asked: asked } = result;
  const { sessions } = scenario;
  const length = formatSeconds(result.horizon_s);
  const parts = sessions.length > 1 ? ` in ${sessions.length} sessions` : '';
  const done = partial
    ? `only ${replications} of ${asked} shows of ${length}${parts} simulated`
    : `${shows(replications)} of ${length}${parts}`;
  const what = scenario.shape === 'loop' ? `${scenario.charge_balls} balls` : 'open chain';
  return `${scenario.name}: ${done}, ${what}, seed ${seed}${partial ? ' (partial result)' : ''}`;
}

/** A line of the table. */
interface Line {
  readonly cells: readonly string[];
  /** Left out first when not everything fits. */
  readonly spare: boolean;
}

function tableOf(lines: readonly Line[], result: RunResult): string {
  return table(
    ['', 'mean', `${formatShare(result.throughput_bps.confidence)} interval`],
    lines.map(({ cells }) => cells),
  );
}

function figures(result: RunResult): Line[] {
  const { loop_time_s: lap, overflow_risk: risk, crew } = result;
  const loop = result.scenario.shape === 'loop';
  return [
    ...line('balls passing the counter', result.throughput_bps, KINDS.bps),
    ...(tellsOfMoving(result)
      ? line('public time with the loop moving', result.moving_share, KINDS.share)
      : []),
    ...line(loop ? 'loop time' : 'time through the chain', lap.mean, KINDS.time),
    ...line('  slowest 5 % take more than', lap.p95, KINDS.time, true),
    ...line('balls spilled', result.spills_per_hour, KINDS.perHour),
    ...leaks(result),
    ...ifAny('balls from the box', result.balls_topped_up_per_show, KINDS.perShow),
    ...(risk.hour === null ? [] : ifAny('chance of a spill, public hour', risk.hour, KINDS.share)),
    ...ifAny('chance of a spill, whole show', risk.show, KINDS.share),
    ...line('first spill, shows that spill', result.first_spill_s, momentKind(result), true),
    ...line('stops', result.stops_per_hour, KINDS.perHour),
    ...ifAny('modules pulled', result.pulls_per_show, KINDS.perShow),
    ...line('stop until cleared by a minder', crew.time_to_clear_s, KINDS.time),
    ...line('minders busy', crew.busy_share, KINDS.share),
  ];
}

function line(name: string, estimate: Estimate | null, kind: Kind, spare = false): Line[] {
  return estimate === null || estimate.mean === null
    ? []
    : [{ cells: [name, meanPhrase(estimate, kind), intervalPhrase(estimate, kind)], spare }];
}

/** A line where the scenario lets it happen: what cannot happen is zero up to the end of its interval. */
function ifAny(name: string, estimate: Estimate, kind: Kind): Line[] {
  return estimate.mean === 0 && (estimate.high === 0 || estimate.replications < 2)
    ? []
    : line(name, estimate, kind);
}

/** Fewer than this share of the spills, and leaks are left to the report: the summary has to fit one screen. */
const TELLING = 0.1;

/** Balls that leak out or are dropped in a stop, where they tell beside the spills. */
function leaks(result: RunResult): Line[] {
  const { leaks_per_hour: leaked, drops_per_hour: dropped, spills_per_hour: spilled } = result;
  const telling = (name: string, estimate: Estimate): Line[] =>
    (estimate.mean ?? 0) > TELLING * (spilled.mean ?? 0) ? line(name, estimate, KINDS.perHour, true) : [];
  return [...telling('balls leaked', leaked), ...telling('balls dropped in stops', dropped)];
}
