import { type ChargeSpec, type LoopSpec, type ModuleSpec, MOST_EVENTS } from '../../model/spec/index.js';
import type { ScenarioRead } from '../form/scenarioForm.js';
import type { Scenario } from '../scenario.js';
import { expectedEvents } from './expectedEvents.js';
import { Names } from './names.js';
import { moduleNames, placedModules, placeNames, toTable } from './table.js';
import { toCrew } from './toCrew.js';
import { toHouseRules } from './toHouseRules.js';
import { toShow, toTimes } from './toShow.js';
import { toCharge, toFeed } from './toSupply.js';
import { toTableRules } from './toTableRules.js';

/** Makes a scenario from what was read; undefined when something stands in the way (every problem is reported). */
export function toSpec(read: ScenarioRead): Omit<Scenario, 'source'> | undefined {
  const times = toTimes(read.show);
  const show = toShow(read.show, times);
  const table = toTable(read, {
    templates: new Names(
      'template',
      (read.templates ?? []).map(({ name, value }) => [name, value]),
    ),
    ballMm: read.ball_diameter ?? 14,
    show: times,
    ...(read.crew?.notice && { notice: read.crew.notice }),
    ...(read.crew?.walk && { walk: read.crew.walk }),
    crewAt: read.crew?.found,
    missing: new Set(),
  });
  const positions = placeNames(table);
  const modules = placedModules(table, positions, read.charge !== undefined).flatMap(
    (module) => module ?? [],
  );
  const complete = modules.length === table.order.length && modules.length > 0;
  const supply = read.feed ? toFeed(read.feed) : complete ? chargeOf(read, modules, positions) : undefined;
  const crew = toCrew(read.crew, read.found, modules, positions, times, supply);
  const counter = read.counter ? positions.resolve(read.counter) : read.feed ? modules.length - 1 : 0;
  const rules = read.table && toTableRules(read.table, moduleNames(table));
  if (read.table && !rules) return undefined;
  if (!complete || !show || !supply || !crew || counter === undefined || read.name === undefined)
    return undefined;
  if ([...table.aside, ...table.spares].some(({ module }) => module === undefined)) return undefined;
  const spares = table.spares.flatMap(({ module }) => module ?? []);
  const spec: LoopSpec = {
    name: read.name,
    modules,
    supply,
    counter,
    crew,
    show,
    ...(spares.length > 0 && { spares }),
  };
  const counted = [...table.order, ...table.aside, ...table.spares].flatMap(({ counted: one }) => one ?? []);
  const events = expectedEvents(spec);
  if (events > MOST_EVENTS) {
    return read.found.report(
      'out_of_range',
      `one replication would take about ${events.toExponential(1)} events, at most ${MOST_EVENTS.toExponential(0)} are allowed`,
      'Shorten the show, lengthen the cycles, or make stops rarer.',
    );
  }
  return {
    name: read.name,
    ...(read.about !== undefined && { about: read.about }),
    spec,
    sideTable: table.aside.flatMap(({ module }) => module ?? []),
    ...(rules && { rules }),
    ...(read.house_rules && { houseRules: toHouseRules(read.house_rules) }),
    ...(counted.length > 0 && { counted }),
  };
}

function chargeOf(
  read: ScenarioRead,
  modules: readonly ModuleSpec[],
  positions: Names<number>,
): ChargeSpec | undefined {
  if (read.charge === undefined) return undefined;
  return toCharge(read.charge, read.found.child('charge') ?? read.found, modules, positions);
}
