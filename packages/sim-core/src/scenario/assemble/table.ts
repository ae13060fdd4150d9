import type { ModuleSpec } from '../../model/spec/index.js';
import type { Found } from '../found.js';
import type { ScenarioRead } from '../form/scenarioForm.js';
import { checkBackUps } from './checkBackUps.js';
import { Names } from './names.js';
import { type Described, type ModuleSurroundings, toModule } from './toModule.js';
import { toPlace } from './toPlace.js';

/** All that is described in a file, by where it is: in the loop, beside it, or waiting to stand in. */
export interface Table {
  /** In the order in which balls pass them. */
  readonly order: readonly Described[];
  /** Modules that are left out of the order. */
  readonly aside: readonly Described[];
  readonly spares: readonly Described[];
}

export function toTable(read: ScenarioRead, around: ModuleSurroundings): Table {
  const all = (read.modules ?? []).map(({ name, at, value }) => toModule(name, at, value, around));
  const order = inOrder(read, all);
  const taken = new Set(all.map(({ name }) => name));
  const spares = (read.spares ?? []).map(({ name, at, value }) => {
    if (taken.has(name)) {
      at.report(
        'duplicate',
        `there is a module ${name} already`,
        'A spare needs a name of its own: its luck goes by it.',
      );
    }
    for (const cause of value.stops ?? []) {
      if (cause.value.at !== undefined)
        cause.at.report(
          'contradiction',
          'a spare has no planned stops: nobody knows when it stands in the loop',
          'Take this cause out.',
        );
    }
    return withoutPlannedStops(toModule(name, at, value, around));
  });
  return { order, aside: all.filter((described) => !order.includes(described)), spares };
}

/** Planned stops that a template says are those of modules in the loop. */
function withoutPlannedStops(spare: Described): Described {
  const { module } = spare;
  const stops = module?.stops.filter(({ trigger }) => trigger.kind !== 'at') ?? [];
  return { ...spare, module: module && { ...module, stops } };
}

/** The modules in the order given, or as written; names that are unknown or stand twice are reported and left out. */
function inOrder(read: ScenarioRead, all: readonly Described[]): readonly Described[] {
  if (read.order === undefined) return all;
  const known = new Names(
    'module',
    all.map((entry) => [entry.name, entry]),
    (read.spares ?? []).map(({ name }) => [name, 'a spare']),
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

/** Names of places in the loop. */
export function placeNames({ order, aside, spares }: Table): Names<number> {
  return new Names(
    'module in the loop',
    order.map(({ name }, m) => [name, m]),
    [
      ...aside.map(({ name }): [string, string] => [name, 'on the side table']),
      ...spares.map(({ name }): [string, string] => [name, 'a spare']),
    ],
  );
}

/** Names of modules, wherever they are. */
export function moduleNames({ order, aside, spares }: Table): Names<string> {
  return new Names(
    'module',
    [...order, ...aside].map(({ name }) => [name, name]),
    spares.map(({ name }) => [name, 'a spare']),
  );
}

/**
 * The modules of the loop with what depends on their places; undefined where something cannot be used (reported). What
 * those beside the loop say of others is checked too, as they may be put into it.
 */
export function placedModules(
  { order, aside, spares }: Table,
  positions: Names<number>,
  closed: boolean,
): (ModuleSpec | undefined)[] {
  const described = [...order, ...aside];
  const spareNames = new Names(
    'spare',
    spares.map(({ name }, s) => [name, s]),
    described.map(({ name }) => [name, 'a module']),
  );
  const count = order.length;
  const placed = order.map((one, own) =>
    toPlace(one, {
      own,
      before: closed || own > 0 ? (own + count - 1) % count : undefined,
      after: closed || own < count - 1 ? (own + 1) % count : undefined,
      positions,
      spares: spareNames,
    }),
  );
  const anywhere = new Names(
    'module',
    described.map(({ name }, m) => [name, m]),
  );
  for (const [i, one] of aside.entries())
    toPlace(one, { own: count + i, before: -1, after: -1, positions: anywhere, spares: spareNames });
  checkBackUps(
    order.map((one, m) => ({ module: placed[m], whenFullAt: () => whenFullAt(one) })),
    spares.map(({ module }) => module),
    closed,
  );
  return placed;
}

/** Where it says what happens when the basket is full. */
function whenFullAt({ said: { basket }, at }: Described): Found {
  return (typeof basket === 'object' ? basket.found.child('when_full') : undefined) ?? at;
}
