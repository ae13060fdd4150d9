import {
  basketCapacity,
  type BasketSpec,
  type DriveSpec,
  type ModuleCounted,
  type ModuleSpec,
} from '../../model/spec/index.js';
import type { DistributionSpec } from '../../distributions/index.js';
import type { Found } from '../found.js';
import type { BasketRead } from '../form/basketForm.js';
import type { ModuleRead, SpareRead, TemplateRead } from '../form/moduleForm.js';
import type { Names } from './names.js';
import { toCounted } from './toCounted.js';
import type { ShowTimes } from './toShow.js';
import { toStop } from './toStop.js';

/** What the rest of the file says that a module needs to know. */
export interface ModuleSurroundings {
  readonly templates: Names<TemplateRead>;
  readonly ballMm: number;
  readonly show: ShowTimes;
  /** How long it takes until a stop is noticed and a minder is there, where the cause does not say. */
  readonly notice?: DistributionSpec;
  readonly walk?: DistributionSpec;
  /** Where the crew is described: what stands there but cannot be used has been reported already. */
  readonly crewAt: Found | undefined;
  /** What is missing in which template, so that fifty modules like it do not say it fifty times. */
  readonly missing: Set<string>;
}

/** A module or spare as the file describes it, wherever it will stand. */
export interface Described {
  readonly name: string;
  /** Where its name stands. */
  readonly at: Found;
  /** All that it and its template say. */
  readonly said: ModuleRead;
  /** Itself, without what depends on its place; undefined when something is missing (reported). */
  readonly module: ModuleSpec | undefined;
  /** What its figures were counted from. */
  readonly counted?: ModuleCounted;
}

/** Makes a module or spare from what the file and its template say. */
export function toModule(
  id: string,
  at: Found,
  own: ModuleRead | SpareRead,
  around: ModuleSurroundings,
): Described {
  const template = own.like && around.templates.resolve(own.like);
  const said = { ...withoutUndefined(template ?? {}), ...withoutUndefined(own) } as ModuleRead;
  const counted = own.counted && toCounted(id, own.counted, said);
  return {
    name: id,
    at,
    said,
    module: moduleOf(id, at, own, template, said, around),
    ...(counted && { counted }),
  };
}

function moduleOf(
  id: string,
  at: Found,
  own: ModuleRead | SpareRead,
  template: TemplateRead | undefined,
  said: ModuleRead,
  around: ModuleSurroundings,
): ModuleSpec | undefined {
  const { cycle, travel } = said;
  // A template that does not exist has been reported; what it might have said is not missed on top.
  if (!own.like || template) {
    for (const key of ['basket', 'cycle', 'travel'] as const) {
      if (Object.hasOwn(own, key) || (template && Object.hasOwn(template, key))) continue;
      const name = own.like ? `${own.like.name}.${key}` : `${id}..${key}`;
      if (around.missing.has(name)) continue;
      around.missing.add(name);
      const where = own.like ? ` It may stand here or in the template ${own.like.name}.` : '';
      at.report('missing_key', `the key "${key}" is missing`, `${NEEDED[key]}${where}`);
    }
  }
  const basket = said.basket === undefined ? undefined : toBasket(said.basket, around.ballMm);
  const basketAt = (): Found => own.found.child('basket') ?? template?.found.child('basket') ?? at;
  const driveWritten = Boolean(own.found.child('drive') ?? template?.found.child('drive'));
  const drive = toDrive(said, basket, at, basketAt, driveWritten);
  const stops = (said.stops ?? []).map(({ name, at: place, value }) =>
    toStop(name, place, value, around, basket?.capacity),
  );
  if (!basket || !cycle || !travel || !drive || stops.includes(undefined)) return undefined;
  return {
    id,
    ...(said.title !== undefined && { title: said.title }),
    ...(said.builder !== undefined && { builder: said.builder }),
    ...(said.design !== undefined && { design: said.design }),
    basket,
    drive,
    batch: said.batch ?? 1,
    catch: said.catch ?? 1,
    cycle,
    travel,
    leak: said.leak ?? 0,
    stops: stops.filter((stop) => stop !== undefined),
  };
}

const NEEDED = {
  basket: 'Say how many balls its basket holds, such as basket: 150.',
  cycle: 'Say how long one cycle takes, such as cycle: 3.6 s.',
  travel: 'Say how long balls need to the next basket, such as travel: 8 s.',
};

function withoutUndefined(keys: object): object {
  return Object.fromEntries(Object.entries(keys).filter(([, value]) => value !== undefined));
}

function toBasket(read: NonNullable<BasketRead>, ballMm: number): BasketSpec | undefined {
  const whenFull = { kind: 'spill' } as const;
  if (typeof read === 'number') return { capacity: read, order: 'fifo', whenFull };
  const order = read.order ?? 'fifo';
  if (read.balls !== undefined) return { capacity: read.balls, order, whenFull };
  const { width, depth, height, packing, found } = read;
  for (const [key, value] of Object.entries({ depth, height })) {
    if (width !== undefined && value === undefined && found.child(key) === undefined) {
      found.report('missing_key', `the key "${key}" is missing`, 'A size is width, depth and height.');
    }
  }
  if (width === undefined || depth === undefined || height === undefined) return undefined;
  const capacity = basketCapacity({
    widthMm: width,
    depthMm: depth,
    heightMm: height,
    ballMm,
    ...(packing !== undefined && { packing }),
  });
  if (capacity < 1)
    return found.report('out_of_range', `a basket of this size holds no ball of ${ballMm} mm`);
  if (capacity > 100_000)
    return found.report(
      'out_of_range',
      `a basket of this size holds ${capacity} balls, at most 100000 are allowed`,
    );
  return { capacity, order, whenFull };
}

function toDrive(
  said: ModuleRead,
  basket: BasketSpec | undefined,
  at: Found,
  basketAt: () => Found,
  driveWritten: boolean,
): DriveSpec | undefined {
  // A drive that cannot be used has been reported; nothing else is held against it.
  if (said.drive === undefined && driveWritten) return undefined;
  const continuous = (said.drive ?? 'continuous') === 'continuous';
  const startAt = said.start_at ?? 1;
  if (basket?.capacity === 0 && (continuous || startAt !== 1 || (said.catch ?? 1) < 1)) {
    return basketAt().report(
      'contradiction',
      'a basket of 0 balls is no basket: only a drive on demand that starts at 1 ball and catches all can do without',
      'Write drive: demand and leave start_at and catch out, or give it a basket.',
    );
  }
  if (continuous) {
    if (said.start_at === undefined) return { kind: 'continuous' };
    return at.report(
      'contradiction',
      'start_at is given, but the drive is continuous',
      'Write drive: demand, or leave start_at out.',
    );
  }
  if (basket && basket.capacity > 0 && startAt > basket.capacity) {
    return at.report(
      'contradiction',
      `a cycle starts at ${startAt} balls, but the basket holds ${basket.capacity}: it would never start`,
    );
  }
  return { kind: 'demand', startAt };
}
