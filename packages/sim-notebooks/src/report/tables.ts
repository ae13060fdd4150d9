import type { Estimate, Kind, ModuleEstimates, RunResult, Scenario } from '@lapwright/sim-core';
import {
  formatNumber,
  formatShare,
  intervalPhrase,
  KINDS,
  meanPhrase,
  momentKind,
  possibilities,
  tellsOfMoving,
} from '@lapwright/sim-core';
import { estimateCell, nameCell } from './cells.js';
import { type Cell, htmlTable, type TableData } from './html.js';

type Row = readonly [string, Estimate | null, Kind];

/** A row where it applies. */
function only(applies: boolean, row: Row): Row[] {
  return applies ? [row] : [];
}

/** The main figures of a run with intervals and replications. */
export function figuresTable(result: RunResult, scenario: Scenario): TableData {
  const { loop_time_s: lap, overflow_risk: risk, crew, spills_by_cause_per_hour: causes } = result;
  const loop = result.scenario.shape === 'loop';
  const can = possibilities(scenario.spec);
  const moment = momentKind(result);
  const after = moment === 'time' ? ' after the opening' : '';
  const rows: Row[] = [
    ['balls passing the counter', result.throughput_bps, KINDS.bps],
    ...only(tellsOfMoving(result), ['public time with the loop moving', result.moving_share, KINDS.share]),
    ...only(can.locked, ['chance that the loop locks', result.locked.show, KINDS.share]),
    ...only(can.locked, [`\u2003first moment${after} (shows that lock)`, result.locked.time_s, moment]),
    [loop ? 'loop time, mean' : 'time through the chain, mean', lap.mean, KINDS.time],
    ['\u2003standard deviation', lap.sd, KINDS.time],
    ['\u2003fastest 5 % take less than', lap.p05, KINDS.time],
    ['\u2003half take less than', lap.p50, KINDS.time],
    ['\u2003slowest 5 % take more than', lap.p95, KINDS.time],
    ['laps in which the ball lay on the floor', result.broken_lap_share, KINDS.share],
    ['balls on the path', result.balls_on_path, KINDS.balls],
    ['balls spilled', result.spills_per_hour, KINDS.perHour],
    ['\u2003at a module that stood still', causes.module_stopped, KINDS.perHour],
    ['\u2003on the crowd its own stop had left', causes.backlog_of_stop, KINDS.perHour],
    ['\u2003more came than it could take', causes.inflow, KINDS.perHour],
    ['balls leaked from run-outs', result.leaks_per_hour, KINDS.perHour],
    ['balls dropped by a stopping mechanism', result.drops_per_hour, KINDS.perHour],
    ['balls never found again', result.lost_per_hour, KINDS.perHour],
    ...only(
      can.places.some(({ returned }) => returned),
      ['balls down overflow chutes', result.returned_per_hour, KINDS.perHour],
    ),
    ...only(
      can.places.some(({ recirculated }) => recirculated),
      ['balls that levers send back', result.recirculated_per_hour, KINDS.perHour],
    ),
    ...only(can.toppedUp, ['balls from the box', result.balls_topped_up_per_show, KINDS.perShow]),
    ...only(can.toppedUp, ['\u2003left in it at closing time', result.box_left_balls, KINDS.balls]),
    ...only(can.toppedUp, ['\u2003chance that it is empty then', result.box_empty_risk, KINDS.share]),
    ['chance of a spill in a public hour', risk.hour, KINDS.share],
    ['chance of a spill in the whole show', risk.show, KINDS.share],
    [`first spill${after} (shows that spill)`, result.first_spill_s, moment],
    ['stops of all modules', result.stops_per_hour, KINDS.perHour],
    ...only(can.pulled, ['modules taken out of the loop', result.pulls_per_show, KINDS.perShow]),
    ['stop until cleared by a minder', crew.time_to_clear_s, KINDS.time],
    ['\u2003longest of a show, cleared or not', crew.longest_stop_s, KINDS.time],
    ['\u2003not cleared at closing time', crew.stops_open_at_closing, KINDS.plain],
    ['minders busy', crew.busy_share, KINDS.share],
    ['jobs waiting for a minder', crew.jobs_waiting, KINDS.plain],
    ['residual of Little’s law (laps cut off at both ends)', result.little_residual, KINDS.share],
  ];
  return {
    label: 'Main figures',
    head: ['figure', 'mean', `${formatShare(result.throughput_bps.confidence)} interval`, 'shows'],
    rows: rows.flatMap(([name, estimate, kind]) =>
      estimate === null || estimate.mean === null
        ? []
        : [[name, meanPhrase(estimate, kind), intervalPhrase(estimate, kind), String(estimate.replications)]],
    ),
  };
}

/** A line for each module in loop order, with intervals; what spills and stops first, because paper ends somewhere. */
export function modulesTable(result: RunResult, scenario: Scenario): TableData {
  const builders = scenario.spec.modules.some(({ builder }) => builder !== undefined);
  const columns: [string, (module: ModuleEstimates) => Estimate | null, Kind][] = [
    ['spill risk in an hour', ({ overflow_risk: risk }) => risk.hour, KINDS.share],
    ['spilled per hour', ({ spills_per_hour: spills }) => spills, KINDS.plain],
    ['stops per hour', ({ stops_per_hour: stops }) => stops, KINDS.plain],
    ['stopped', ({ stopped_share: stopped }) => stopped, KINDS.share],
    ['without balls', ({ starved_share: starved }) => starved, KINDS.share],
    ['balls in basket', ({ level_mean: level }) => level, KINDS.plain],
    ['95 % of time at most', ({ level_p95: level }) => level, KINDS.plain],
    ['balls per second', ({ throughput_bps: flow }) => flow, KINDS.plain],
  ];
  return {
    label: 'Modules',
    head: ['module', ...(builders ? ['builder'] : []), 'basket holds', ...columns.map(([name]) => name)],
    rows: result.modules.map((module, m) => {
      const capacity = scenario.spec.modules[m]?.basket.capacity ?? 0;
      return [
        nameCell(module),
        ...(builders ? [module.builder ?? ''] : []),
        formatNumber(capacity),
        ...columns.map(([, figure, kind]) => estimateCell(figure(module), kind)),
      ];
    }),
  };
}

/**
 * A line for each module whose place holds others up, sends balls back or can do without it; nothing when there is none.
 */
export function exchangesTable(result: RunResult, scenario: Scenario): string {
  const { spec } = scenario;
  const { places } = possibilities(spec);
  const rows = result.modules.flatMap((module, m) => {
    const can = places[m];
    if (can === undefined) return [];
    const cell = (applies: boolean, estimate: Estimate, kind: Kind, note = ''): string | Cell => {
      if (!applies) return '';
      const filled = estimateCell(estimate, kind);
      return typeof filled === 'string' || note === ''
        ? filled
        : { text: filled.text, note: [filled.note, note].filter(Boolean).join(', ') };
    };
    const whenFull = spec.modules[m]?.basket.whenFull;
    const to = whenFull?.kind === 'return' ? `into ${spec.modules[whenFull.to]?.id ?? ''}` : '';
    return can.heldUp || can.pulled || can.returned || can.recirculated
      ? [
          [
            nameCell(module),
            cell(can.heldUp, module.held_up_share, KINDS.share),
            cell(can.pulled, module.pulled_share, KINDS.share),
            cell(can.pulled, module.pulls_per_show, KINDS.plain),
            cell(can.returned, module.returned_per_hour, KINDS.plain, to),
            cell(can.recirculated, module.recirculated_per_hour, KINDS.plain),
          ],
        ]
      : [];
  });
  const head = [
    'module',
    'held up',
    'out of the loop',
    'taken out per show',
    'down its overflow chute per hour',
    'sent back by its lever per hour',
  ];
  const used = new Set(head.flatMap((_, i) => (rows.some((row) => row[i] !== '') ? [i] : [])));
  if (rows.length === 0) return '';
  const chosen = <T>(cells: readonly T[]): T[] => cells.filter((_, i) => used.has(i));
  return htmlTable(chosen(head), rows.map(chosen), 'Held up, out of the loop, sent back');
}
