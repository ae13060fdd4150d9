import { CYCLE_END, DELIVERY, SWEEP } from '../model/eventClass.js';
import type { LoopView } from '../model/loopView.js';
import type { LoopSpec } from '../model/spec/index.js';

/** Balls that come to a basket: handed on to it, or put in by hand as far as there is room. */
export type Arrival = 'handed' | 'by_hand';

/**
 * Follows a show event by event: how many balls stand where, and what comes to each basket. Between two events it still
 * knows the state after the first, so that a moment without an event of its own can be looked at exactly.
 */
export class TableTracker {
  /** Balls in each basket. */
  readonly level: Int32Array;
  /** Balls in each mechanism. */
  readonly held: Int32Array;
  /** Balls on each run-out. */
  readonly onRunOut: Int32Array;
  /** 1 where the module itself stands in its place and is not stopped. */
  readonly runs: Uint8Array;
  /** 1 where what the mechanism holds waits for room, even if it has been stopped on top of it. */
  private readonly heldUp: Uint8Array;
  /** Balls on the path: in baskets, mechanisms, run-outs and chutes; Infinity in a chain, where new ones keep coming. */
  onPath: number;
  private readonly spec: LoopSpec;
  private readonly total: number;
  private entered = 0;
  /** Places where balls may move in the event of another place: those before, at and behind a basket that backs up. */
  private readonly linked: readonly number[];
  /** Places into which balls are put by hand. */
  private readonly byHand: readonly number[];
  private readonly arrived: (place: number, balls: number, how: Arrival) => void;

  /** @param arrived called for what comes to a basket, after each event */
  constructor(spec: LoopSpec, arrived: (place: number, balls: number, how: Arrival) => void) {
    const { modules, supply, crew } = spec;
    const n = modules.length;
    this.spec = spec;
    this.arrived = arrived;
    this.level = Int32Array.from(modules, (_, m) => (supply.kind === 'charge' ? (supply.placed[m] ?? 0) : 0));
    this.held = new Int32Array(n);
    this.onRunOut = new Int32Array(n);
    this.runs = new Uint8Array(n).fill(1);
    this.heldUp = new Uint8Array(n);
    this.total =
      supply.kind === 'charge'
        ? supply.placed.reduce((sum, balls) => sum + balls, 0) + (crew.topUp?.box ?? 0)
        : Infinity;
    this.onPath = this.total - (crew.topUp?.box ?? 0);
    const linked = modules.flatMap(({ basket }, m) =>
      basket.whenFull.kind === 'back_up' ? [(m + n - 1) % n, m, (m + 1) % n] : [],
    );
    this.linked = [...new Set(linked)];
    this.byHand = [...new Set([crew.sweep?.into, crew.topUp?.into])].filter((place) => place !== undefined);
  }

  /** Looks at the table after an event; call it after each. */
  observe(view: LoopView): void {
    const { module, eventClass } = view;
    const n = view.modules;
    if (eventClass === SWEEP) this.putIn(view);
    if (module >= 0) {
      this.handOver(view, module, eventClass);
      for (const m of this.linked) if (m !== module) this.handOver(view, m, CYCLE_END);
      this.look(view, module);
      this.look(view, (module + 1) % n);
      for (const m of this.linked) this.look(view, m);
      const full = this.spec.modules[module]?.basket.whenFull;
      if (full?.kind === 'return') this.look(view, full.to);
    }
    this.onPath = this.total - view.floor - view.lost - view.box;
  }

  /** What the run-out behind place m, the feed before it, or its overflow chute has handed over in this event. */
  private handOver(view: LoopView, m: number, eventClass: number): void {
    const last = m + 1 === view.modules;
    if (m === 0 && view.entered > this.entered) {
      this.arrived(0, view.entered - this.entered, 'handed');
      this.entered = view.entered;
      return;
    }
    const now = view.onRunOut(m);
    // Room at its end takes balls off the run-out and lets the mechanism put its own on, in one event.
    const before = (this.onRunOut[m] ?? 0) + (this.isLetGo(view, m) ? (this.held[m] ?? 0) : 0);
    this.onRunOut[m] = now;
    if (now < before) {
      if (!last) this.arrived(m + 1, before - now, 'handed');
      else if (this.spec.supply.kind === 'charge') this.arrived(0, before - now, 'handed');
      return;
    }
    const full = this.spec.modules[m]?.basket.whenFull;
    if (eventClass !== DELIVERY || now !== before || full?.kind !== 'return') return;
    const more = this.more(view, full.to);
    if (more > 0) this.arrived(full.to, more, 'handed');
  }

  private isLetGo(view: LoopView, m: number): boolean {
    const doing = view.doing(m);
    return this.heldUp[m] === 1 && doing !== 'held_up' && doing !== 'stopped';
  }

  /** Balls from the floor or the box: into baskets that are known. */
  private putIn(view: LoopView): void {
    for (const m of this.byHand) {
      const more = this.more(view, m);
      if (more > 0) this.arrived(m, more, 'by_hand');
      this.look(view, m);
    }
  }

  /** How many more balls are at place m than before: a mechanism that waits may have picked some of them at once. */
  private more(view: LoopView, m: number): number {
    return view.level(m) + view.held(m) - (this.level[m] ?? 0) - (this.held[m] ?? 0);
  }

  private look(view: LoopView, m: number): void {
    this.level[m] = view.level(m);
    this.held[m] = view.held(m);
    const doing = view.doing(m);
    if (doing !== 'stopped') this.heldUp[m] = doing === 'held_up' ? 1 : 0;
    this.runs[m] = !view.stopped(m) && view.inPlace(m) === this.spec.modules[m]?.id ? 1 : 0;
  }
}
