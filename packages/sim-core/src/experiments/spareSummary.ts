import type { ReplicationResult } from '../model/index.js';
import type { ModuleSpec } from '../model/spec/index.js';
import { Moments } from '../statistics/index.js';
import type { SpareEstimates } from './runResult.js';
import { eventsOverShows } from './eventsOverShows.js';
import { Shares } from './shares.js';
import { UsedRate } from './usedRate.js';

/** Adds up the measures of one spare over replications, in whatever place it stands. */
export class SpareSummary {
  private readonly spec: ModuleSpec;
  /** The spare's place in the columns of a result. */
  private readonly s: number;
  /** Whether some place could ever take it. */
  private readonly usable: boolean;
  private readonly inUse = new Shares();
  private readonly stops = new Moments();
  private readonly stopsInLoop = new UsedRate();
  private readonly stopped = new Shares();
  private measuredSeconds = 0;

  constructor(spec: ModuleSpec, s: number, usable: boolean) {
    this.spec = spec;
    this.s = s;
    this.usable = usable;
  }

  add({ spares, measuredSeconds }: ReplicationResult): void {
    const at = (column: Float64Array): number => column[this.s] ?? NaN;
    const hours = measuredSeconds / 3600;
    this.measuredSeconds = measuredSeconds;
    this.inUse.add(at(spares.inUseShare));
    this.stops.add(at(spares.stops) / hours);
    this.stopsInLoop.add(at(spares.stops), hours * at(spares.inUseShare));
    this.stopped.add(at(spares.stoppedShare));
  }

  /** @param certain that every show is the same, by the scenario */
  estimates(confidence: number, certain: boolean): SpareEstimates {
    const { id, title, builder, stops } = this.spec;
    const canStop = this.usable && stops.length > 0;
    return {
      id,
      ...(title !== undefined && { title }),
      ...(builder !== undefined && { builder }),
      in_use_share: this.inUse.interval(confidence, this.usable, certain),
      stops_per_hour: eventsOverShows(this.stops, this.measuredSeconds / 3600, confidence, {
        possible: canStop,
        certain,
      }),
      stops_per_hour_in_loop: this.stopsInLoop.interval(confidence, stops.length > 0, certain),
      // Taking it out again counts as a stop of its place, even when it never stops by itself.
      stopped_share: this.stopped.interval(confidence, this.usable, certain),
    };
  }
}
