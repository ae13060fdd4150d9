import {
  possibilities,
  type RoughCut,
  type RunResult,
  type Scenario,
  tellsOfMoving,
} from '@lapwright/sim-core';
import {
  intervalDots,
  levelMap,
  loopTimeChart,
  ribbonChart,
  type ShowHours,
  spillChart,
} from '../charts/index.js';
import {
  highest,
  levelRows,
  levelsAreShares,
  loopTimeRows,
  moduleRows,
  sessionHours,
  sliceHours,
  spillRows,
  timeRows,
} from '../rows/index.js';
import {
  crewCaption,
  levelCaption,
  loopTimeCaption,
  riskCaption,
  spillCaption,
  starvationCaption,
  stopsCaption,
  throughputCaption,
} from '../words/index.js';
import { boxFigure, placesFigure } from './ballFigures.js';
import { type Figure, MOST } from './figure.js';
import { heldUpFigure, movingFigure } from './backUpFigures.js';
import { pullsFigure } from './pullsFigure.js';

/**
 * All pictures of a run's report, most urgent first; those on what the scenario rules out are left out.
 *
 * @example
 * figures(exampleResult, exampleScenario, roughCut(exampleLoop)).map(({ id }) => id).slice(0, 3) // => ['risk', 'spills', 'levels']
 */
export function figures(result: RunResult, scenario: Scenario, rough: RoughCut): Figure[] {
  const hours = showHours(result);
  const can = possibilities(scenario.spec);
  const moving = tellsOfMoving(result) ? [movingFigure(result)] : [];
  const locks = (result.locked.show.mean ?? 0) > 0;
  return [
    ...(locks ? moving : []),
    riskFigure(result),
    spillFigure(result),
    ...(can.heldUp ? [heldUpFigure(result)] : []),
    ...(can.pulled ? [pullsFigure(result, scenario, hours)] : []),
    levelFigure(result, scenario, hours),
    loopTimeFigure(result),
    throughputFigure(result, hours),
    ...(locks ? [] : moving),
    placesFigure(result, scenario, hours),
    ...(scenario.spec.crew.topUp === undefined ? [] : [boxFigure(result, scenario, hours)]),
    starvationFigure(result, rough),
    stopsFigure(result),
    crewFigure(result, scenario, hours),
  ];
}

function showHours(result: RunResult): ShowHours {
  const slices = sliceHours(result);
  return {
    from: slices[0]?.from ?? 0,
    to: slices.at(-1)?.to ?? 1,
    byTheClock: result.scenario.opens_s !== null,
    sessions: sessionHours(result),
  };
}

function riskFigure(result: RunResult): Figure {
  // A show without a full hour has no risk of the hour; then that of the show stands in.
  const hourly = result.overflow_risk.hour !== null;
  const what = hourly ? 'public hour' : 'show';
  const rows = highest(
    moduleRows(result, ({ overflow_risk: risk }) => (hourly ? risk.hour : risk.show)),
    MOST,
  );
  const caption = riskCaption(
    result,
    rows.map(({ module }) => module),
    what,
  );
  const title = 'Which baskets run over';
  if (rows.length === 0) return { id: 'risk', title, caption };
  return {
    id: 'risk',
    title,
    caption,
    spec: intervalDots(rows, {
      description: caption,
      title: `chance of a spill in a ${what}`,
      percent: true,
    }),
  };
}

function spillFigure(result: RunResult): Figure {
  const rows = spillRows(result, MOST);
  const caption = spillCaption(result);
  const title = 'Where balls fall, and why';
  return {
    id: 'spills',
    title,
    caption,
    ...(rows.length > 0 && { spec: spillChart(rows, { description: caption }) }),
  };
}

function levelFigure(result: RunResult, scenario: Scenario, hours: ShowHours): Figure {
  const caption = levelCaption(result, scenario);
  const modules = scenario.spec.modules.map(({ id }) => id);
  const spec = levelMap(levelRows(result, scenario), {
    description: caption,
    hours,
    modules,
    shares: levelsAreShares(scenario),
  });
  return { id: 'levels', title: 'How full the baskets stand', caption, spec };
}

function loopTimeFigure(result: RunResult): Figure {
  const loop = result.scenario.shape === 'loop';
  const caption = loopTimeCaption(result);
  const title = loop ? 'How long a lap takes' : 'How long the way through takes';
  const rows = loopTimeRows(result);
  if (rows.length === 0) return { id: 'loop-time', title, caption };
  const { p05, p50, p95 } = result.loop_time_s;
  const marks = [
    { minutes: (p05.mean ?? NaN) / 60, label: '5 % below' },
    { minutes: (p50.mean ?? NaN) / 60, label: 'half' },
    { minutes: (p95.mean ?? NaN) / 60, label: '95 % below' },
  ];
  return {
    id: 'loop-time',
    title,
    caption,
    spec: loopTimeChart(rows, {
      description: caption,
      title: loop ? 'loop time, minutes' : 'time through the chain, minutes',
      marks,
      what: loop ? 'laps' : 'balls',
    }),
  };
}

function throughputFigure(result: RunResult, hours: ShowHours): Figure {
  const caption = throughputCaption(result);
  const rows = timeRows(result, result.series.throughput_bps);
  return {
    id: 'throughput',
    title: 'Balls passing the counter',
    caption,
    spec: ribbonChart(rows, { description: caption, title: 'balls per second', hours }),
  };
}

function starvationFigure(result: RunResult, rough: RoughCut): Figure {
  const caption = starvationCaption(result, rough);
  const rows = moduleRows(result, ({ starved_share: starved }) => starved);
  return {
    id: 'starvation',
    title: 'Which modules go without balls',
    caption,
    ...(rows.length > 0 && {
      spec: intervalDots(rows, {
        description: caption,
        title: 'share of cycles, or of waiting time, without balls',
        percent: true,
      }),
    }),
  };
}

function stopsFigure(result: RunResult): Figure {
  const rows = highest(
    moduleRows(result, ({ stops_per_hour: stops }) => stops),
    MOST,
  );
  const caption = stopsCaption(result, rows.length);
  return {
    id: 'stops',
    title: 'Which modules stop most',
    caption,
    ...(rows.length > 0 && {
      spec: intervalDots(rows, { description: caption, title: 'stops per hour', percent: false }),
    }),
  };
}

function crewFigure(result: RunResult, scenario: Scenario, hours: ShowHours): Figure {
  const caption = crewCaption(result, scenario);
  const title = 'How busy the minders are';
  if (result.crew.busy_share.mean === null) return { id: 'crew', title, caption };
  const rows = timeRows(result, result.series.busy_minders);
  return {
    id: 'crew',
    title,
    caption,
    spec: ribbonChart(rows, { description: caption, title: 'minders busy', hours }),
  };
}
