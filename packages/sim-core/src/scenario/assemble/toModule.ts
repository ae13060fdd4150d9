import type {
  BasketSpec,
  DriveSpec,
  ModuleSpec,
  RemedySpec,
  StopCauseSpec,
  StopTriggerSpec,
} from '../../model/spec/index.js';
import { basketCapacity } from '../../model/spec/index.js';
import type { DistributionSpec } from '../../distributions/index.js';
import type { Found } from '../found.js';
import type { BasketRead } from '../form/basketForm.js';
import type { ModuleRead, TemplateRead } from '../form/moduleForm.js';
import type { StopRead } from '../form/stopForm.js';
import type { Names } from './names.js';
import { secondsAfterOpening, type ShowTimes } from './toShow.js';

/** What the rest of the file says that a module needs to know. */
export interface ModuleSurroundings {
  readonly templates: Names<TemplateRead>;
  readonly ballMm: number;
  readonly show: ShowTimes;
  /** How long it takes until a stop is noticed and a minder is there, where the cause does not say. */
  readonly notice?: DistributionSpec;
  readonly walk?: DistributionSpec;
  /** What is missing in which template, so that fifty modules like it do not say it fifty times. */
  readonly missing: Set<string>;
}

/** Makes a module from what the file and its template say; undefined when something is missing (reported). */
export function toModule(
  id: string,
  at: Found,
  own: ModuleRead,
  around: ModuleSurroundings,
): ModuleSpec | undefined {
  const template = own.like && around.templates.resolve(own.like);
  const said = { ...withoutUndefined(template ?? {}), ...withoutUndefined(own) } as ModuleRead;
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
  const drive = toDrive(said, basket, at);
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
  if (typeof read === 'number') return { capacity: read, order: 'fifo', whenFull: 'spill' };
  const order = read.order ?? 'fifo';
  const whenFull = read.when_full ?? 'spill';
  if (read.balls !== undefined) return { capacity: read.balls, order, whenFull };
  const { width, depth, height, packing, found } = read;
  for (const [key, value] of Object.entries({ depth, height })) {
    if (width !== undefined && value === undefined && !hasKey(found, key)) {
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

function hasKey(found: Found, key: string): boolean {
  return found.entries().some((entry) => entry.key === key);
}

function toDrive(said: ModuleRead, basket: BasketSpec | undefined, at: Found): DriveSpec | undefined {
  if ((said.drive ?? 'continuous') === 'continuous') {
    if (said.start_at === undefined) return { kind: 'continuous' };
    return at.report(
      'contradiction',
      'start_at is given, but the drive is continuous',
      'Write drive: demand, or leave start_at out.',
    );
  }
  const startAt = said.start_at ?? 1;
  if (basket && startAt > basket.capacity) {
    return at.report(
      'contradiction',
      `a cycle starts at ${startAt} balls, but the basket holds ${basket.capacity}: it would never start`,
    );
  }
  return { kind: 'demand', startAt };
}

function toStop(
  id: string,
  at: Found,
  read: NonNullable<StopRead>,
  around: ModuleSurroundings,
  capacity: number | undefined,
): StopCauseSpec | undefined {
  const trigger = toTrigger(read, around.show);
  const remedy = toRemedy(read, at, around);
  const { crowded } = read;
  if (crowded?.above !== undefined && crowded.above > 0 && capacity === Infinity) {
    at.report(
      'contradiction',
      'a share of an unlimited basket is never reached, so it is never crowded',
      'Give the basket a size, or leave crowded out.',
    );
  }
  if (!trigger || !remedy) return undefined;
  if (crowded && (crowded.above === undefined || crowded.times === undefined)) return undefined;
  return {
    id,
    trigger,
    ...(crowded?.above !== undefined &&
      crowded.times !== undefined && { crowded: { above: crowded.above, times: crowded.times } }),
    drops: read.drops ?? 0,
    remedy,
  };
}

function toTrigger(read: NonNullable<StopRead>, show: ShowTimes): StopTriggerSpec | undefined {
  if (read.per_cycle !== undefined) return { kind: 'per_cycle', probability: read.per_cycle };
  if (read.per_ball !== undefined) return { kind: 'per_ball', probability: read.per_ball };
  if (read.running !== undefined) return { kind: 'running', time: read.running };
  if (read.at === undefined) return undefined;
  const times = read.at.map((moment) => secondsAfterOpening(moment, show));
  return times.includes(undefined)
    ? undefined
    : { kind: 'at', times: times.filter((time) => time !== undefined) };
}

function toRemedy(
  read: NonNullable<StopRead>,
  at: Found,
  around: ModuleSurroundings,
): RemedySpec | undefined {
  if (read.itself !== undefined) return { kind: 'itself', time: read.itself };
  if (read.crew === undefined) return undefined;
  const { clear } = read.crew;
  const notice = read.crew.notice ?? around.notice;
  const walk = read.crew.walk ?? around.walk;
  for (const [key, value] of Object.entries({ notice, walk })) {
    if (value === undefined && !hasKey(read.crew.found, key)) {
      at.report(
        'missing_key',
        `nothing says the ${key} time of this stop`,
        `Write ${key}: 10 s here, or once for all in the crew section.`,
      );
    }
  }
  return notice && walk && clear ? { kind: 'crew', notice, walk, clear } : undefined;
}
