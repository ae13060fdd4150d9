import type { ReplicationResult } from '../model/index.js';
import type { ModuleSpec } from '../model/spec/index.js';
import { clusteredProportion, meanOverShows, Moments } from '../statistics/index.js';
import type { LockEstimates } from './runResult.js';
import { unlessImpossible } from './unlessImpossible.js';

/** Adds up over replications whether and when the loop locked, and keeps who waited for whom the first time. */
export class LockSummary {
  private readonly modules: readonly ModuleSpec[];
  private readonly possible: boolean;
  private readonly shows = new Moments();
  private readonly time = new Moments();
  private heldUp: readonly string[] = [];

  constructor(modules: readonly ModuleSpec[], possible: boolean) {
    this.modules = modules;
    this.possible = possible;
  }

  add({ locked }: ReplicationResult): void {
    this.shows.add(locked === null ? 0 : 1);
    if (locked === null) return;
    this.time.add(locked.at);
    if (this.heldUp.length === 0) this.heldUp = [...locked.heldUp].flatMap((m) => this.modules[m]?.id ?? []);
  }

  /** @param certain that every show is the same, by the scenario */
  estimates(confidence: number, certain: boolean): LockEstimates {
    return {
      show: unlessImpossible(clusteredProportion(this.shows, 1, confidence), this.possible),
      time_s: meanOverShows(this.time, confidence, certain, { min: 0 }),
      modules: this.heldUp,
    };
  }
}
