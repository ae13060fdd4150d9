import type { RunResult } from '../experiments/index.js';
import { intervalPhrase, type Kind, KINDS, meanPhrase, shows, worstSpillers } from '../findings/index.js';
import type { Estimate } from '../statistics/index.js';
import { formatSeconds, formatShare } from '../units/index.js';
import { table, wrap } from './layout.js';

/** The summary of a run: what fits one screen, figures with their intervals first, then what to do. */
export function summaryText(result: RunResult, advice: readonly string[]): string {
  const { scenario, replications, seed, partial, replications_asked: asked } = result;
  const length = formatSeconds(result.horizon_s);
  const done = partial
    ? `only ${replications} of ${asked} shows of ${length} simulated`
    : `${shows(replications)} of ${length}`;
  const loop = scenario.shape === 'loop';
  const what = loop ? `${scenario.charge_balls} balls` : 'open chain';
  const title = `${scenario.name}: ${done}, ${what}, seed ${seed}${partial ? ' (partial result)' : ''}`;
  const worst = worstSpillers(result, 4).map(
    ({ id, spills_per_hour: spills }) => `${id} ${meanPhrase(spills, KINDS.plain)}`,
  );
  return `${[
    wrap(title),
    table(['', 'mean', `${formatShare(result.throughput_bps.confidence)} interval`], figures(result)),
    ...(worst.length > 0 ? [wrap(`Most spills (balls per hour): ${worst.join(', ')}.`)] : []),
    ...advice.slice(0, 2).map((sentence) => wrap(`> ${sentence}`, '  ')),
  ].join('\n\n')}\n`;
}

function figures(result: RunResult): string[][] {
  const { loop_time_s: lap, overflow_risk: risk, crew } = result;
  const loop = result.scenario.shape === 'loop';
  const row = (name: string, estimate: Estimate | null, kind: Kind): string[][] =>
    estimate === null || estimate.mean === null
      ? []
      : [[name, meanPhrase(estimate, kind), intervalPhrase(estimate, kind)]];
  return [
    ...row('balls passing the counter', result.throughput_bps, KINDS.bps),
    ...row(loop ? 'loop time' : 'time through the chain', lap.mean, KINDS.time),
    ...row('  slowest 5 % take more than', lap.p95, KINDS.time),
    ...row('balls spilled', result.spills_per_hour, KINDS.perHour),
    ...leaks(result),
    ...row('chance of a spill, public hour', risk.hour, KINDS.share),
    ...row('chance of a spill, whole show', risk.show, KINDS.share),
    ...row('first spill, shows that spill', result.first_spill_s, KINDS.time),
    ...row('stops', result.stops_per_hour, KINDS.perHour),
    ...row('stop until cleared by a minder', crew.time_to_clear_s, KINDS.time),
    ...row('minders busy', crew.busy_share, KINDS.share),
  ];
}

/** Fewer than this share of the spills, and leaks are left to the report: the summary has to fit one screen. */
const TELLING = 0.1;

/** Balls that leak out or are dropped in a stop, where they tell beside the spills. */
function leaks(result: RunResult): string[][] {
  const { leaks_per_hour: leaked, drops_per_hour: dropped, spills_per_hour: spilled } = result;
  const line = (name: string, estimate: Estimate): string[][] =>
    (estimate.mean ?? 0) > TELLING * (spilled.mean ?? 0)
      ? [[name, meanPhrase(estimate, KINDS.perHour), intervalPhrase(estimate, KINDS.perHour)]]
      : [];
  return [...line('balls leaked', leaked), ...line('balls dropped in stops', dropped)];
}
