import { CLEARED, CYCLE_END, NOTICED, STOP } from '../../packages/sim-core/src/model/eventClass.js';
import type { LoopView } from '../../packages/sim-core/src/model/index.js';

/** What a module did in the measured time, seen from outside. */
export interface ModuleTrace {
  /** Seconds with 0, 1, 2, ... balls in the module: basket and mechanism. */
  readonly timeAt: number[];
  /** Seconds each ball picked had waited in the basket. */
  readonly waits: number[];
  /** The same, only for the first ball of each batch that arrived. */
  readonly firstWaits: number[];
  /** Seconds each ball released had been in the module. */
  readonly sojourns: number[];
  /** Seconds from pick to release of each batch. */
  readonly completions: number[];
  /** Balls each ball found in the module when it arrived. */
  readonly found: number[];
  /** Balls in the basket just before each pick, and balls picked; an empty cycle picks 0. */
  readonly before: number[];
  readonly picked: number[];
}

export interface ModuleWatchOptions {
  /** Index of the module. */
  readonly module: number;
  /** True for a drive that also turns when no ball waits. */
  readonly continuous: boolean;
  /** Where the measured time begins. */
  readonly from: number;
  /** Balls in the basket at the opening. */
  readonly level: number;
}

/**
 * Follows one module from event to event by what anybody at the table can see: how many balls lie in the basket and in
 * the mechanism. For baskets that are first in first out and mechanisms that catch every ball.
 */
export class ModuleWatch implements ModuleTrace {
  readonly timeAt: number[] = [];
  readonly waits: number[] = [];
  readonly firstWaits: number[] = [];
  readonly sojourns: number[] = [];
  readonly completions: number[] = [];
  readonly found: number[] = [];
  readonly before: number[] = [];
  readonly picked: number[] = [];

  private readonly module: number;
  private readonly continuous: boolean;
  private readonly from: number;
  private since: number;
  private level: number;
  private held = 0;
  private pickedAt = 0;
  /** Arrival times of the balls in the basket from `head` on; negative for all but the first of a batch. */
  private readonly basket: number[];
  private head = 0;
  private mechanism: number[] = [];

  constructor({ module, continuous, from, level }: ModuleWatchOptions) {
    this.module = module;
    this.continuous = continuous;
    this.from = from;
    this.since = from;
    this.level = level;
    this.basket = Array.from({ length: level }, () => 0);
  }

  observe(view: LoopView): void {
    const level = view.level(this.module);
    const held = view.held(this.module);
    const cycleEnded = view.module === this.module && view.eventClass === CYCLE_END;
    if (!cycleEnded && level === this.level && held === this.held) return;
    const { now } = view;
    const picked = cycleEnded || this.held === 0 ? held : 0;
    this.settle(now);
    this.arrive(now, level - this.level + picked);
    if (cycleEnded && this.held > 0) this.release(now);
    if (picked > 0 || (cycleEnded && this.continuous)) this.pick(now, level + picked, picked);
    this.level = level;
    this.held = held;
  }

  /** Books the time up to now at the present number of balls. */
  settle(now: number): void {
    const inside = this.level + this.held;
    if (now > this.since) this.timeAt[inside] = (this.timeAt[inside] ?? 0) + now - this.since;
    this.since = Math.max(now, this.from);
  }

  private arrive(now: number, balls: number): void {
    for (let i = 0; i < balls; i++) {
      this.basket.push(i === 0 ? now : -now);
      if (now > this.from) this.found.push(this.level + this.held + i);
    }
  }

  private pick(now: number, before: number, picked: number): void {
    const measured = now > this.from;
    this.mechanism = [];
    for (let i = 0; i < picked; i++) {
      const arrival = this.basket[this.head++] ?? NaN;
      const wait = now - Math.abs(arrival);
      if (measured) this.waits.push(wait);
      if (measured && arrival >= 0) this.firstWaits.push(wait);
      this.mechanism.push(Math.abs(arrival));
    }
    if (this.head > 10_000) {
      this.basket.splice(0, this.head);
      this.head = 0;
    }
    this.pickedAt = now;
    if (measured) {
      this.before.push(before);
      this.picked.push(picked);
    }
  }

  private release(now: number): void {
    if (now <= this.from) return;
    this.completions.push(now - this.pickedAt);
    for (const arrival of this.mechanism) this.sojourns.push(now - arrival);
  }
}

/** What the crew did in the measured time, seen from outside. */
export interface CrewTrace {
  /** Seconds with 0, 1, 2, ... modules stopped. */
  readonly timeDown: number[];
  /** Seconds each stop waited for a minder, 0 for one that was looked after at once. */
  readonly waits: number[];
}

/** Follows the stops of a loop whose crew serves requests in order, with every stop noticed as it begins. */
export class CrewWatch implements CrewTrace {
  readonly timeDown: number[] = [];
  readonly waits: number[] = [];

  private readonly from: number;
  private since: number;
  private down = 0;
  private jobs = 0;
  private readonly asked: number[] = [];

  /** @param from where the measured time begins */
  constructor(from: number) {
    this.from = from;
    this.since = from;
  }

  observe(view: LoopView): void {
    const { now, eventClass, waitingJobs } = view;
    if (eventClass !== STOP && eventClass !== NOTICED && eventClass !== CLEARED) return;
    this.settle(now);
    if (eventClass === STOP) {
      this.down++;
      return;
    }
    if (eventClass === NOTICED) {
      if (waitingJobs > this.jobs) this.asked.push(now);
      else if (now > this.from) this.waits.push(0);
    } else {
      this.down--;
      if (waitingJobs < this.jobs) {
        const asked = this.asked.shift() ?? NaN;
        if (now > this.from) this.waits.push(now - asked);
      }
    }
    this.jobs = waitingJobs;
  }

  /** Books the time up to now with the present number of stopped modules. */
  settle(now: number): void {
    if (now > this.since) this.timeDown[this.down] = (this.timeDown[this.down] ?? 0) + now - this.since;
    this.since = Math.max(now, this.from);
  }
}
