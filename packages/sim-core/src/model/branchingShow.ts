import { advance } from './advance.js';
import { copyState } from './copyState.js';
import { LoopState } from './loopState.js';
import type { PreparedLoop } from './preparedLoop.js';
import { redraw } from './redraw.js';
import { setUp } from './setUp.js';

const HOUR = 3600;

/** What a show tells of the baskets that are watched; like results it counts from the end of the warm-up. */
export interface WatchedSpills {
  /** Whether a ball found no room in one of them. */
  readonly any: boolean;
  /** Share of the full public hours in which one did. */
  readonly hoursShare: number;
  readonly ballsPerHour: number;
}

/**
 * A show that can stop when a basket has become so full, and go on from there in several ways: what splitting needs.
 *
 * The watched places keep in step with the queue; others run ahead as ever. What they have gone through already is then part
 * of what is known where the show is split: it is decided by numbers that are drawn, and what is drawn from there on has not
 * touched it. Only ends of stops are drawn again (redraw.ts), so no place counts on those.
 */
export class BranchingShow {
  private readonly state: LoopState;
  private readonly watched: readonly number[];

  /**
   * @param loop the same for shows that are copied to each other
   * @param watched places whose baskets are watched
   */
  constructor(
    loop: PreparedLoop,
    watched: readonly number[],
    { seed, replication }: { readonly seed: number; readonly replication: number },
  ) {
    this.watched = watched;
    this.state = new LoopState(loop, loop.plan, seed, replication, { inStep: watched, redraws: true });
    setUp(this.state);
  }

  /** Public seconds after the opening. */
  get now(): number {
    return this.state.queue.now;
  }

  /** The highest share of its capacity at which a watched basket has stood since the warm-up. */
  get peakShare(): number {
    const { totals, capacity } = this.state;
    let peak = 0;
    for (const m of this.watched) {
      const share = totals.levelPeak[m] / capacity[m];
      if (share > peak) peak = share;
    }
    return peak;
  }

  /** Goes on until a watched basket has stood at this share of its capacity, true; or to the end of the show, false. */
  runUntil(share: number): boolean {
    const { state } = this;
    while (this.peakShare < share) {
      if (advance(state) >= 0) continue;
      state.queue.now = state.loop.end;
      return false;
    }
    return true;
  }

  /** Becomes what another show of the same loop is now. */
  copyFrom(other: BranchingShow): void {
    copyState(other.state, this.state);
  }

  /** From here on it goes its own way, by the random numbers of this branch, which must be another for each continuation. */
  goOwnWay(branch: string): void {
    this.state.draws.renew(branch);
    this.state.chances.renew(branch);
    redraw(this.state);
  }

  /** What has spilled at the watched baskets up to now. */
  get spills(): WatchedSpills {
    const { watched } = this;
    const { totals, loop } = this.state;
    let balls = 0;
    for (const m of watched)
      balls += totals.spillsWhileStopped[m] + totals.spillsOnBacklog[m] + totals.spillsOnInflow[m];
    let hours = 0;
    for (let hour = 0; hour < totals.hours; hour++)
      if (watched.some((m) => totals.moduleHourSpilled[m * totals.hours + hour] === 1)) hours++;
    return {
      any: balls > 0,
      hoursShare: hours / totals.hours,
      ballsPerHour: (balls * HOUR) / (loop.end - totals.from),
    };
  }
}
