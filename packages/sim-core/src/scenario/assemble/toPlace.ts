import type { LeverSpec, ModuleSpec, PullSpec, WhenFullSpec } from '../../model/spec/index.js';
import type { Reference } from '../fields/index.js';
import type { WhenFullRead } from '../form/basketForm.js';
import type { LeverRead, PullRead } from '../form/pullForm.js';
import type { Names } from './names.js';
import { NOTHING } from './nothing.js';
import type { Described } from './toModule.js';

/** Where a module stands, for what it says of others. */
export interface Place {
  /** Its own index in the loop, and those of its neighbours; the ends of a chain have no neighbour on one side. */
  readonly own: number;
  readonly before: number | undefined;
  readonly after: number | undefined;
  readonly positions: Names<number>;
  readonly spares: Names<number>;
}

/** A module in its place: with what happens when its basket is full, its pull rule and its lever. */
export function toPlace({ said, module }: Described, place: Place): ModuleSpec | undefined {
  const { basket, pull: pullRead, lever: leverRead } = said;
  const fullRead = typeof basket === 'object' ? basket.when_full : undefined;
  const whenFull = toWhenFull(fullRead ?? 'spill', place);
  const pull = pullRead && toPull(pullRead, place.spares);
  const lever = leverRead && toLever(leverRead, place);
  if (!module || !whenFull || (pullRead && !pull) || (leverRead && !lever)) return undefined;
  return {
    ...module,
    basket: { ...module.basket, whenFull },
    ...(pull && { pull }),
    ...(lever && { lever }),
  };
}

function toWhenFull(read: NonNullable<WhenFullRead>, place: Place): WhenFullSpec | undefined {
  if (read === 'spill') return { kind: 'spill' };
  if (read.back_up)
    return read.back_up.holds === undefined ? undefined : { kind: 'back_up', holds: read.back_up.holds };
  if (read.return === undefined) return undefined;
  const { to: named, time, found } = read.return;
  const to = named ? place.positions.resolve(named) : place.before;
  if (!named && to === undefined && found.child('to') === undefined) {
    return found.report(
      'missing_key',
      'nothing stands before the first module of a chain',
      'Write to: and the module into whose basket the balls run.',
    );
  }
  if (to === place.own) {
    return (named?.found ?? found).report(
      'contradiction',
      'balls that find this basket full would run back into this same basket',
      'Name another module in to:.',
    );
  }
  return to === undefined || time === undefined ? undefined : { kind: 'return', to, time };
}

function toPull(read: NonNullable<PullRead>, known: Names<number>): PullSpec | undefined {
  const { stops, outlasts, chute, swap, mend } = read;
  const spares = resolveAll(read.spares ?? [], known, 'spare');
  if (spares === undefined || swap === undefined) return undefined;
  if (stops && (stops.more_than === undefined || stops.within === undefined)) return undefined;
  return {
    ...(stops?.more_than !== undefined &&
      stops.within !== undefined && { stops: { moreThan: stops.more_than, withinSeconds: stops.within } }),
    ...(outlasts !== undefined && { outlastsSeconds: outlasts }),
    spares,
    ...(chute && { chute }),
    swap,
    ...(mend && { mend }),
  };
}

function toLever(read: NonNullable<LeverRead>, place: Place): LeverSpec | undefined {
  const { takes, found } = read;
  const own = read.watches?.find(({ name }) => place.positions.get(name) === place.own);
  if (own || (read.watches === undefined && place.after === place.own)) {
    return (own?.found ?? found).report(
      'contradiction',
      'a lever cannot watch its own module: it works while another one is stopped',
      'Name the modules behind it in watches:.',
    );
  }
  if (read.watches === undefined && place.after === undefined && found.child('watches') === undefined) {
    return found.report(
      'missing_key',
      'nothing stands behind the last module of a chain',
      'Write watches: and the modules during whose stops it sends balls back.',
    );
  }
  const watches = read.watches
    ? resolveAll(read.watches, place.positions, 'module')
    : place.after === undefined
      ? undefined
      : [place.after];
  return watches && takes && { watches, takes, time: read.time ?? NOTHING };
}

/** What all names of a list stand for; reports those that are unknown or stand twice. */
function resolveAll(
  references: readonly Reference[],
  known: Names<number>,
  what: string,
): number[] | undefined {
  const seen = new Set<string>();
  const values = references.map((reference) => {
    const { name, found } = reference;
    if (seen.has(name)) return found.report('duplicate', `${what} ${name} stands in this list twice`);
    seen.add(name);
    return known.resolve(reference);
  });
  return values.includes(undefined) ? undefined : values.filter((value) => value !== undefined);
}
