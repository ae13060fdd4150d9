import { type ChargeSpec, type LoopSpec, type ModuleSpec, MOST_EVENTS } from '../../model/spec/index.js';
import type { ScenarioRead } from '../form/scenarioForm.js';
import type { Scenario } from '../scenario.js';
import { expectedEvents } from './expectedEvents.js';
import { Names } from './names.js';
import { toCrew } from './toCrew.js';
import { type ModuleSurroundings, toModule } from './toModule.js';
import { toShow } from './toShow.js';
import { toCharge, toFeed } from './toSupply.js';

/** Makes a scenario from what was read; undefined when something stands in the way (every problem is reported). */
export function toSpec(read: ScenarioRead): Omit<Scenario, 'source'> | undefined {
  const show = toShow(read.show);
  const around: ModuleSurroundings = {
    templates: new Names(
      'template',
      (read.templates ?? []).map(({ name, value }) => [name, value]),
    ),
    ballMm: read.ball_diameter ?? 14,
    show: {
      ...(read.show?.opens !== undefined && { opens: read.show.opens }),
      ...(show && { lasts: show.seconds }),
    },
    ...(read.crew?.notice && { notice: read.crew.notice }),
    ...(read.crew?.walk && { walk: read.crew.walk }),
    missing: new Set(),
  };
  const all = (read.modules ?? []).map(({ name, at, value }) => ({
    name,
    module: toModule(name, at, value, around),
  }));
  const order = inOrder(read, all);
  const modules = order.flatMap(({ module }) => module ?? []);
  const positions = new Names(
    'module in the loop',
    order.map(({ name }, m) => [name, m]),
  );
  const complete = modules.length === order.length && order.length > 0;
  const crew = toCrew(read.crew, read.found, modules, positions, around.show);
  const counter = read.counter ? positions.resolve(read.counter) : read.feed ? modules.length - 1 : 0;
  const supply = read.feed ? toFeed(read.feed) : complete ? chargeOf(read, modules, positions) : undefined;
  if (!complete || !show || !supply || !crew || counter === undefined || read.name === undefined)
    return undefined;
  if (all.some(({ module }) => module === undefined)) return undefined;
  const spec: LoopSpec = { name: read.name, modules, supply, counter, crew, show };
  const events = expectedEvents(spec);
  if (events > MOST_EVENTS) {
    return read.found.report(
      'out_of_range',
      `one replication would take about ${events.toExponential(1)} events, at most ${MOST_EVENTS.toExponential(0)} are allowed`,
      'Shorten the show, lengthen the cycles, or make stops rarer.',
    );
  }
  const ids = new Set(modules.map(({ id }) => id));
  return {
    name: read.name,
    ...(read.about !== undefined && { about: read.about }),
    spec,
    sideTable: all.flatMap(({ module }) => (module && !ids.has(module.id) ? [module] : [])),
  };
}

interface Described {
  readonly name: string;
  /** Undefined when it cannot be used (reported). */
  readonly module: ModuleSpec | undefined;
}

/** The modules in the order given, or as written; names that are unknown or stand twice are reported and left out. */
function inOrder(read: ScenarioRead, all: readonly Described[]): readonly Described[] {
  if (read.order === undefined) return all;
  const known = new Names(
    'module',
    all.map((entry) => [entry.name, entry]),
  );
  const seen = new Set<string>();
  return read.order.flatMap((reference) => {
    const entry = known.resolve(reference);
    if (entry === undefined) return [];
    if (seen.has(entry.name)) {
      reference.found.report('duplicate', `module ${entry.name} stands in the order twice`);
      return [];
    }
    seen.add(entry.name);
    return [entry];
  });
}

function chargeOf(
  read: ScenarioRead,
  modules: readonly ModuleSpec[],
  positions: Names<number>,
): ChargeSpec | undefined {
  if (read.charge === undefined) return undefined;
  const place = read.found.entries().find(({ key }) => key === 'charge')?.value ?? read.found;
  return toCharge(read.charge, place, modules, positions);
}
