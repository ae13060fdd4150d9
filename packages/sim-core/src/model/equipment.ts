import type { DistributionSpec } from '../distributions/index.js';
import type { LoopSpec, ModuleSpec } from './spec/index.js';
import type { SourceList } from './stopTable.js';

/** What stands at a place whose module is out and no spare was free. */
export const PLAIN_CHUTE = 'plain chute';

/** Most lifted by a plain chute at a time; so it fits wherever a single ball does. */
const CHUTE_BATCH = 1;
const AT_ONCE: DistributionSpec = { family: 'constant', value: 0 };

/**
 * Everything that can stand at a place of the loop, by number: the modules, then the spares, then one plain chute for each
 * module. Their parameters are copied into the tables of the place where they stand, so that an event there needs not ask
 * what stands in it.
 */
export class Equipment {
  readonly count: number;
  readonly spares: number;
  /** Number of module 0's plain chute. */
  readonly firstChute: number;
  readonly ids: readonly string[];

  readonly capacity: Float64Array;
  readonly mixed: Uint8Array;
  readonly batch: Int32Array;
  /** Balls that must wait before a cycle starts; 0 for a continuous drive. */
  readonly startAt: Int32Array;
  /** 1 when its travel time is a constant 0: balls drop straight into the next basket. */
  readonly direct: Uint8Array;
  /** Numbers of its random sources; -1 for none. */
  readonly cycleDraw: Int32Array;
  readonly travelDraw: Int32Array;
  readonly phaseDraw: Int32Array;
  readonly mixedDraw: Int32Array;
  readonly missChance: Int32Array;
  readonly leakChance: Int32Array;
  /** How many of its causes are running clocks; 1 when one of them depends on the basket's level. */
  readonly runningClocks: Int32Array;
  readonly crowdWatch: Uint8Array;

  constructor(spec: LoopSpec, sources: SourceList) {
    const { modules, spares = [] } = spec;
    const n = modules.length;
    const chutes = modules.map((module): ModuleSpec => plainChute(module));
    const all = [...modules, ...spares, ...chutes];
    this.count = all.length;
    this.spares = spares.length;
    this.firstChute = n + spares.length;
    this.ids = all.map(({ id }, i) => (i < this.firstChute ? id : PLAIN_CHUTE));

    const { draws, chances } = sources;
    const draw = (place: string, purpose: string, distribution?: DistributionSpec): number =>
      draws.push({ place, purpose, ...(distribution && { distribution }) }) - 1;
    const chance = (place: string, purpose: string, probability: number): number =>
      chances.push({ place, purpose, probability }) - 1;
    const numbers = (number: (thing: ModuleSpec, i: number) => number): Int32Array =>
      Int32Array.from(all, number);

    this.capacity = Float64Array.from(all, ({ basket }) => basket.capacity);
    this.mixed = Uint8Array.from(all, ({ basket }) => (basket.order === 'mixed' ? 1 : 0));
    this.batch = numbers(({ batch }) => batch);
    this.startAt = numbers(({ drive }) => (drive.kind === 'demand' ? drive.startAt : 0));
    this.direct = Uint8Array.from(all, ({ travel }) => (isZero(travel) ? 1 : 0));
    this.cycleDraw = numbers(({ id, cycle }) => draw(id, 'cycle', cycle));
    this.travelDraw = numbers(({ id, travel }, i) =>
      draw(id, i < this.firstChute ? 'travel' : 'bypass', travel),
    );
    this.phaseDraw = numbers(({ id }, i) => (i < n && this.startAt[i] === 0 ? draw(id, 'phase') : -1));
    this.mixedDraw = numbers(({ id }, i) => (this.mixed[i] === 1 ? draw(id, 'mixed') : -1));
    this.missChance = numbers(({ id, catch: caught }) =>
      caught === 1 ? -1 : chance(id, 'catch', 1 - caught),
    );
    this.leakChance = numbers(({ id, leak }) => (leak === 0 ? -1 : chance(id, 'leak', leak)));
    this.runningClocks = numbers(
      ({ stops }) => stops.filter(({ trigger }) => trigger.kind === 'running').length,
    );
    this.crowdWatch = Uint8Array.from(all, ({ stops }) =>
      stops.some(({ trigger, crowded }) => trigger.kind === 'running' && crowded !== undefined) ? 1 : 0,
    );
  }
}

/** A chute in the place of a module: its basket stays, and balls run out of it one by one. */
function plainChute({ id, basket, pull }: ModuleSpec): ModuleSpec {
  return {
    id,
    basket: { ...basket, order: 'fifo' },
    drive: { kind: 'demand', startAt: 1 },
    batch: CHUTE_BATCH,
    catch: 1,
    cycle: AT_ONCE,
    travel: pull?.chute ?? AT_ONCE,
    leak: 0,
    stops: [],
  };
}

/** True for a time that is always 0. */
export function isZero(time: DistributionSpec): boolean {
  return time.family === 'constant' && time.value === 0;
}
