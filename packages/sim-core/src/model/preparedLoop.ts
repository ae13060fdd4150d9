import type { DistributionSpec } from '../distributions/index.js';
import { buildDistribution } from '../distributions/index.js';
import { ChanceTable } from './chances.js';
import { checkSpec } from './checkSpec.js';
import { DrawTable } from './drawTable.js';
import { Equipment, isZero } from './equipment.js';
import { HeadStartRules } from './headStartRules.js';
import { type MeasurePlan, measurePlan } from './measurePlan.js';
import type { LoopSpec, ModuleSpec, WhenFullSpec } from './spec/index.js';
import { type SourceList, StopTable } from './stopTable.js';
import { Timers } from './timers.js';
import { watchersOf } from './watchers.js';

/**
 * A loop that has been checked and laid out for simulation: all that is the same in all its shows. No show changes it, so
 * many shows can be simulated from it, and each begins half a millisecond sooner than from the spec (50 modules).
 *
 * Modules are numbered from 0 in loop order; everything by module, or by the place it stands at, is a typed array. Times
 * are seconds.
 *
 * @throws ParameterError when the spec cannot be used
 * @example
 * const loop = new PreparedLoop(exampleLoop);
 * const twice = [1, 2].map((seed) => simulate(loop, { seed }).passes);
 * twice[0] === simulate(exampleLoop, { seed: 1 }).passes // => true
 */
export class PreparedLoop {
  readonly spec: LoopSpec;
  readonly plan: MeasurePlan;
  readonly modules: number;
  /** True for a closed loop, false for an open chain. */
  readonly closed: boolean;
  readonly counter: number;
  readonly end: number;
  /** Balls put in at the beginning, and those in the box. */
  readonly charge: number;
  readonly box: number;
  /** By place: the one after it; -1 for the tray at the end of a chain. */
  readonly placeAfter: Int32Array;
  /** Everything that can stand in the loop. */
  readonly equipment: Equipment;
  /** 1 for a module that may be pulled. */
  readonly mayBePulled: Uint8Array;
  /** Mean time of a cycle of each module. */
  readonly meanCycle: Float64Array;

  /** 1 for a place whose full basket holds balls back on the run-out before it. */
  readonly backsUp: Uint8Array;
  /** 1 for a place whose run-out leads to one that backs up; most balls on it. */
  readonly backedUp: Uint8Array;
  readonly holds: Float64Array;
  /** A loop in which something backs up. */
  readonly canLock: boolean;
  /** Number of the overflow chute of a place and of the chute of its lever, -1 for none; where each chute leads. */
  readonly overflowChute: Int32Array;
  readonly leverChute: Int32Array;
  readonly chuteTo: Int32Array;
  readonly chuteDraw: Int32Array;

  readonly stops: StopTable;
  readonly draws: DrawTable;
  readonly chances: ChanceTable;
  readonly swapDraw: Int32Array;
  readonly mendDraw: Int32Array;
  readonly leverDraw: Int32Array;
  readonly feedDraw: number;
  readonly sweepDraw: number;
  readonly lostChance: number;
  readonly topUpDraw: number;
  /** Places that sweeps and top-ups put balls into; -1 when there are none. */
  readonly sweepInto: number;
  readonly topUpInto: number;
  /** Fewer balls on the path than this, and the box is asked for more; 0 when there is none. */
  readonly topUpBelow: number;
  /** By module: those with a lever that watch it. */
  readonly watchers: readonly (readonly number[])[];

  readonly timers: Timers;
  readonly headStart: HeadStartRules;

  /** @param plan the measuring grid; by default `measurePlan(spec)` */
  constructor(given: LoopSpec, plan?: MeasurePlan) {
    checkSpec(given);
    // A copy, because shows read the spec long after: what its owner does with it meanwhile must not reach them.
    const spec = structuredClone(given);
    const { modules, supply, crew, spares = [] } = spec;
    const { sweep, topUp } = crew;
    const n = modules.length;
    this.spec = spec;
    this.plan = plan ?? measurePlan(spec);
    this.modules = n;
    this.closed = supply.kind === 'charge';
    this.counter = spec.counter;
    this.end = spec.show.seconds;
    this.charge = supply.kind === 'charge' ? supply.placed.reduce((sum, balls) => sum + balls, 0) : 0;
    this.box = topUp?.box ?? 0;
    this.topUpBelow = topUp?.below ?? 0;
    this.sweepInto = sweep?.into ?? -1;
    this.topUpInto = topUp?.into ?? -1;
    this.placeAfter = Int32Array.from(modules, (_, m) => (m + 1 < n ? m + 1 : this.closed ? 0 : -1));
    this.watchers = watchersOf(modules);
    this.headStart = new HeadStartRules(spec);
    this.mayBePulled = Uint8Array.from(modules, ({ pull }) => (pull ? 1 : 0));
    this.meanCycle = Float64Array.from(modules, ({ cycle }) => buildDistribution(cycle).mean);

    this.backsUp = Uint8Array.from(modules, ({ basket }) => (basket.whenFull.kind === 'back_up' ? 1 : 0));
    const after = (m: number): WhenFullSpec | undefined =>
      (m + 1 < n || this.closed ? modules[(m + 1) % n] : undefined)?.basket.whenFull;
    this.backedUp = Uint8Array.from(modules, (_, m) => (after(m)?.kind === 'back_up' ? 1 : 0));
    this.holds = Float64Array.from(modules, (_, m) => {
      const rule = after(m);
      return rule?.kind === 'back_up' ? rule.holds : Infinity;
    });
    this.canLock = this.closed && this.backsUp.includes(1);

    const sources: SourceList = { draws: [], chances: [] };
    const draw = (place: string | null, purpose: string, time: DistributionSpec): number =>
      sources.draws.push({ place, purpose, distribution: time }) - 1;
    const numbers = (number: (module: ModuleSpec, m: number) => number): Int32Array =>
      Int32Array.from(modules, number);
    this.equipment = new Equipment(spec, sources);
    const chutes: { to: number; draw: number; place: number }[] = [];
    this.overflowChute = new Int32Array(n).fill(-1);
    this.leverChute = new Int32Array(n).fill(-1);
    for (const [m, { id, basket, lever }] of modules.entries()) {
      const { whenFull } = basket;
      if (whenFull.kind === 'return')
        this.overflowChute[m] =
          chutes.push({ to: whenFull.to, draw: draw(id, 'chute', whenFull.time), place: m }) - 1;
      if (lever)
        this.leverChute[m] = chutes.push({ to: m, draw: draw(id, 'recirculate', lever.time), place: m }) - 1;
    }
    this.chuteTo = Int32Array.from(chutes, ({ to }) => to);
    this.chuteDraw = Int32Array.from(chutes, (chute) => chute.draw);
    this.swapDraw = numbers(({ id, pull }) => (pull ? draw(id, 'swap', pull.swap) : -1));
    this.mendDraw = numbers(({ id, pull }) => (pull?.mend ? draw(id, 'mend', pull.mend) : -1));
    this.leverDraw = numbers(({ id, lever }) =>
      lever && !isZero(lever.takes) ? draw(id, 'lever', lever.takes) : -1,
    );
    this.feedDraw = supply.kind === 'feed' ? draw(null, 'feed', supply.every) : -1;
    this.sweepDraw = sweep ? draw(null, 'sweep', sweep.takes) : -1;
    this.lostChance = sweep
      ? sources.chances.push({ place: null, purpose: 'lost', probability: sweep.lost }) - 1
      : -1;
    this.topUpDraw = topUp && !isZero(topUp.takes) ? draw(null, 'top-up', topUp.takes) : -1;
    this.stops = new StopTable([...modules, ...spares], sources);
    this.draws = new DrawTable(sources.draws);
    this.chances = new ChanceTable(sources.chances);
    this.timers = new Timers(
      modules,
      chutes.map(({ place }) => place),
      this.stops,
    );
  }
}
