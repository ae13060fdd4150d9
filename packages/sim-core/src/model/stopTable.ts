import type { DistributionSpec } from '../distributions/index.js';
import type { ModuleSpec, StopCauseSpec } from './spec/index.js';
import type { DrawSource } from './drawTable.js';

/** Trigger kinds. Clocks and planned stops (trigger `at`) hang on timers of their own and are not counted down in cycles. */
export const PER_CYCLE = 0;
export const PER_BALL = 1;
export const RUNNING = 2;
export const CLOCK = 3;
export const PLANNED = 4;

/** A list of random sources that is filled while tables are laid out; each call returns the new one's number. */
export interface SourceList {
  draws: (DrawSource & { readonly distribution?: DistributionSpec })[];
  chances: (DrawSource & { readonly probability: number })[];
}

/**
 * All causes of stopping of all modules and spares, as a table: those of number i are rows first[i] to first[i + 1] - 1.
 */
export class StopTable {
  readonly first: Int32Array;
  readonly kind: Int8Array;
  /** Number of the module or spare; id of the cause. */
  readonly owner: Int32Array;
  readonly id: string[] = [];
  /** -ln(1 - p) of one cycle or one ball, with the basket calm and crowded. */
  readonly hazard: Float64Array;
  readonly hazardCrowded: Float64Array;
  /** The cause is crowded while its basket holds more balls than this; Infinity when it never is. */
  readonly crowdedAbove: Float64Array;
  readonly crowdedTimes: Float64Array;
  /** Numbers of its random sources; `itself` is -1 for a cause that needs a minder. */
  readonly trigger: Int32Array;
  readonly drops: Int32Array;
  readonly itself: Int32Array;
  readonly notice: Int32Array;
  readonly walk: Int32Array;
  readonly clear: Int32Array;
  /** Planned stops: row of the cause and the time, in order of the table. */
  readonly planned: readonly { readonly row: number; readonly owner: number; readonly time: number }[];

  constructor(all: readonly ModuleSpec[], sources: SourceList) {
    const rows = all.reduce((sum, module) => sum + module.stops.length, 0);
    const numbers = (): Float64Array => new Float64Array(rows);
    const indexes = (): Int32Array => new Int32Array(rows).fill(-1);
    this.first = new Int32Array(all.length + 1);
    this.kind = new Int8Array(rows);
    this.owner = new Int32Array(rows);
    this.hazard = numbers();
    this.hazardCrowded = numbers();
    this.crowdedAbove = numbers().fill(Infinity);
    this.crowdedTimes = numbers().fill(1);
    this.trigger = indexes();
    this.drops = indexes();
    this.itself = indexes();
    this.notice = indexes();
    this.walk = indexes();
    this.clear = indexes();
    const planned: { row: number; owner: number; time: number }[] = [];
    let row = 0;
    for (const [owner, module] of all.entries()) {
      this.first[owner] = row;
      for (const cause of module.stops) {
        this.owner[row] = owner;
        this.id.push(cause.id);
        this.describe(row, cause, module.id, module.basket.capacity, sources);
        if (cause.trigger.kind === 'at')
          for (const time of cause.trigger.times) planned.push({ row, owner, time });
        row++;
      }
    }
    this.first[all.length] = row;
    this.planned = planned;
  }

  private describe(
    row: number,
    cause: StopCauseSpec,
    module: string,
    capacity: number,
    sources: SourceList,
  ): void {
    const add = (purpose: string, distribution?: DistributionSpec): number =>
      sources.draws.push({
        place: module,
        purpose: `${purpose}:${cause.id}`,
        ...(distribution && { distribution }),
      }) - 1;
    const { trigger, remedy } = cause;
    const times = cause.crowded?.times ?? 1;
    if (cause.crowded) {
      const { above } = cause.crowded;
      // Without a basket it is never crowded.
      if (capacity > 0) this.crowdedAbove[row] = above === 0 ? 0 : above * capacity;
      this.crowdedTimes[row] = times;
    }
    switch (trigger.kind) {
      case 'per_cycle':
      case 'per_ball':
        this.kind[row] = trigger.kind === 'per_cycle' ? PER_CYCLE : PER_BALL;
        this.hazard[row] = -Math.log1p(-trigger.probability);
        this.hazardCrowded[row] = -Math.log1p(-Math.min(1, trigger.probability * times));
        this.trigger[row] = add('stop');
        break;
      case 'running':
      case 'clock':
        this.kind[row] = trigger.kind === 'running' ? RUNNING : CLOCK;
        this.trigger[row] = add('stop', trigger.time);
        break;
      case 'at':
        this.kind[row] = PLANNED;
    }
    this.drops[row] =
      sources.chances.push({ place: module, purpose: `drops:${cause.id}`, probability: cause.drops }) - 1;
    if (remedy.kind === 'itself') {
      this.itself[row] = add('itself', remedy.time);
    } else {
      this.notice[row] = add('notice', remedy.notice);
      this.walk[row] = add('walk', remedy.walk);
      this.clear[row] = add('clear', remedy.clear);
    }
  }
}
