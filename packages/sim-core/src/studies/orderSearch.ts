import { keptModules, onlyMoves, type OrderMove, orderMoves } from '../orders/index.js';
import { stream } from '../random/index.js';
import { studentTQuantile } from '../numerics/index.js';
import { momentsOf } from '../statistics/index.js';
import { race, type Racer, type RaceResult } from './orderRace.js';
import {
  applyStep,
  fixedModules,
  isAllowed,
  movedCount,
  type OrderProblem,
  type OrderStep,
  stepsFrom,
} from './orderSteps.js';
import type { Study } from './study.js';
import { system } from './system.js';

/** How an order is to be looked for. */
export interface OrderSearchOptions {
  readonly on: string;
  readonly sign: 1 | -1;
  /** Shows to spend. */
  readonly budget: number;
  /** Modules that may be carried at most. */
  readonly mostMoved: number;
  /** An order that keeps the rules, to begin with. */
  readonly start: readonly string[];
}

/** What a search came to. */
export interface OrderFound {
  readonly order: readonly string[];
  readonly spent: number;
  /** Different orders that were simulated. */
  readonly orders: number;
}

/** Orders that race in one round besides the one to be beaten. */
const WIDTH = 6;
/** Shows of each in one race at most. */
const LONGEST_RACE = 16;
/** Share of the shows kept for trying whether every move is needed. */
const PRUNING = 0.25;
/** Random steps looked at for one that is allowed and new. */
const TRIES = 60;
/** Shows of each below which it is not tried whether a move is needed. */
const FEWEST_TO_PRUNE = 3;
/** One-sided: among steps of all kinds, and among orders that the rough figure proposes. */
const SURE_TO_WIN = 0.95;
const SURE_ENOUGH = 0.8;
/** Steps away from the best order where the search starts again when no step from it is left to try. */
const SHAKE = 3;
/** Steps downhill by the rough figure at most. */
const LONGEST_WAY = 8;

interface Neighbour {
  readonly order: readonly string[];
  readonly step: OrderStep;
  readonly strain: number;
}

/**
 * Looks for a better order within a number of shows.
 *
 * First what the rough figure suggests: from the start downhill by it, one step at a time; some of the orders on the way
 * race against the start. Then local search: steps of single modules and groups from the best order so far, some of them
 * those that the rough figure likes best, some drawn at random, race against it, each race on shows of its own, so that
 * nobody wins by having been lucky before. What else was better in a race is tried together with the winner next. When no
 * step is left it starts again some steps away. In the end every move is tried without, and left out where that costs
 * nothing that the shows can tell.
 */
export class OrderSearch {
  private readonly study: Study;
  private readonly problem: OrderProblem;
  private readonly options: OrderSearchOptions;
  private readonly fixed: readonly string[];
  private readonly tried = new Map<string, Racer | undefined>();
  private readonly uniform: () => number;
  private promising: { readonly racer: Racer; readonly ratio: number } | undefined;
  private spent = 0;
  private nextShow = 0;

  constructor(study: Study, problem: OrderProblem, options: OrderSearchOptions) {
    this.study = study;
    this.problem = problem;
    this.options = options;
    this.fixed = fixedModules(problem.rules);
    this.uniform = stream({ seed: study.seed, replication: 0, place: null, purpose: 'best-order' });
  }

  async run(): Promise<OrderFound> {
    const { start, budget } = this.options;
    const first = this.racer(start);
    if (first === undefined) return { order: start, spent: 0, orders: 0 };
    const roaming = budget * (1 - PRUNING);
    let best = await this.guided(first, roaming);
    let current = best;
    let together: readonly OrderStep[] = [];
    while (this.spent < roaming) {
      const racers = this.candidates(current, together);
      if (racers.length === 0) {
        best = await this.better(best, current, roaming);
        const elsewhere = this.shaken(best);
        if (elsewhere === undefined) break;
        current = elsewhere;
        together = [];
        continue;
      }
      const before = current;
      const result = await this.runRace([current, ...racers.map(({ racer }) => racer)], roaming);
      if (result === undefined) break;
      const ahead = racers.filter((_, i) => (result.leads[i + 1] ?? 0) > 0);
      current = result.winner;
      together = ahead.flatMap(({ step, racer }) => (racer === current || step === undefined ? [] : [step]));
      if (current === before) together = [];
    }
    best = await this.better(best, current, budget);
    const pruned = await this.pruned(best, budget);
    // What was not proved here may still be proposed: other shows judge it, and there are shows for that.
    const order = keyOf(pruned) === keyOf(start) ? (this.promising?.racer.order ?? pruned) : pruned;
    const simulated = [...this.tried.values()].filter((racer) => racer !== undefined).length;
    return { order, spent: this.spent, orders: simulated };
  }

  /** Downhill by the rough figure, and which of the orders on that way is the best. */
  private async guided(first: Racer, until: number): Promise<Racer> {
    const way: (readonly string[])[] = [];
    let { order } = first;
    for (let step = 0; step < LONGEST_WAY; step++) {
      const strain = this.problem.strain(order);
      const next = this.byStrain(order).find((one) => one.strain >= strain || this.allowed(one.order));
      if (next === undefined || next.strain >= strain) break;
      order = next.order;
      way.push(order);
    }
    const some = way.filter((_, i) => Number.isInteger(Math.log2(i + 1)) || i === way.length - 1);
    const racers = some.flatMap((one) => this.racer(one) ?? []).filter((racer) => racer !== first);
    return (await this.runRace([first, ...racers], until, SURE_ENOUGH))?.winner ?? first;
  }

  /** All orders one step away, allowed or not, the least strained first. */
  private byStrain(order: readonly string[]): readonly Neighbour[] {
    return stepsFrom(order, this.problem)
      .map((step) => ({ step, order: applyStep(step, order, this.fixed) }))
      .map((one) => ({ ...one, strain: this.problem.strain(one.order) }))
      .toSorted((a, b) => a.strain - b.strain);
  }

  private allowed(order: readonly string[]): boolean {
    return isAllowed(order, this.problem, this.options.mostMoved);
  }

  /** What to race against an order: the winner with what else was better, what the rough figure likes, and some at random. */
  private candidates(
    current: Racer,
    together: readonly OrderStep[],
  ): { readonly racer: Racer; readonly step?: OrderStep }[] {
    const found: { racer: Racer; step?: OrderStep }[] = [];
    const add = (order: readonly string[], step?: OrderStep): boolean => {
      if (this.tried.has(keyOf(order)) || !this.allowed(order)) return false;
      const racer = this.racer(order);
      if (racer === undefined) return false;
      found.push({ racer, ...(step && { step }) });
      return true;
    };
    let combined = current.order;
    for (const step of together) combined = applyStep(step, combined, this.fixed);
    if (together.length > 0) add(combined);
    if (together.length > 1 && together[0])
      add(applyStep(together[0], current.order, this.fixed), together[0]);
    const liked = this.byStrain(current.order);
    // Among very many steps one drawn at random is hardly ever worth its shows.
    const random = this.options.budget >= liked.length ? WIDTH / 2 : 1;
    const touched = new Set<string>();
    for (const { step, order } of liked) {
      if (found.length >= WIDTH - random) break;
      const lead = step.modules[0] ?? '';
      if (!touched.has(lead) && add(order, step)) touched.add(lead);
    }
    for (let i = 0; i < TRIES && found.length < WIDTH; i++) {
      const one = liked[Math.floor(this.uniform() * liked.length)];
      if (one) add(one.order, one.step);
    }
    // Few are left: whatever is allowed and new, in the order of the rough figure.
    for (const { step, order } of liked) {
      if (found.length >= WIDTH) break;
      add(order, step);
    }
    return found;
  }

  /** An order some allowed steps away that has not been tried. */
  private shaken(from: Racer): Racer | undefined {
    for (let i = 0; i < TRIES; i++) {
      let { order } = from;
      for (let step = 0; step < SHAKE; step++) {
        const steps = stepsFrom(order, this.problem);
        const one = steps[Math.floor(this.uniform() * steps.length)];
        const next = one === undefined ? order : applyStep(one, order, this.fixed);
        if (this.allowed(next)) order = next;
      }
      const racer = this.tried.has(keyOf(order)) ? undefined : this.racer(order);
      if (racer !== undefined) return racer;
    }
    return undefined;
  }

  /** Which of two is the better one. */
  private async better(best: Racer, other: Racer, until: number): Promise<Racer> {
    if (best === other) return best;
    return (await this.runRace([best, other], until))?.winner ?? best;
  }

  /** A race on shows of its own; undefined when there are not enough of them left. */
  private async runRace(
    racers: readonly Racer[],
    until: number,
    sure = SURE_TO_WIN,
  ): Promise<{ readonly winner: Racer; readonly leads: readonly number[] } | undefined> {
    const [first] = racers;
    if (first === undefined || racers.length < 2) return undefined;
    const { on, sign } = this.options;
    const from = this.nextShow;
    const limits = { on, sign, from, most: LONGEST_RACE, budget: until - this.spent };
    const result = await race(this.study, racers, limits);
    this.spent += result.spent;
    this.nextShow += result.shows;
    if (result.spent === 0) return undefined;
    // Of those that are as good as the leader within one standard error, the one that carries the fewest modules.
    const winner = result.close.reduce((best, i) =>
      this.moved(racers[i]) < this.moved(racers[best]) ? i : best,
    );
    if (keyOf(first.order) === keyOf(this.options.start)) this.remember(racers, result);
    const proven = (result.ratios[winner] ?? 0) > studentTQuantile(sure, Math.max(1, result.shows - 1));
    return { winner: proven ? (racers[winner] ?? first) : first, leads: result.leads };
  }

  /** Keeps the one that has led most clearly over the start. */
  private remember(racers: readonly Racer[], { ratios, close }: RaceResult): void {
    for (const i of close) {
      const racer = racers[i];
      const ratio = ratios[i] ?? 0;
      if (racer && i > 0 && ratio > (this.promising?.ratio ?? 1)) this.promising = { racer, ratio };
    }
  }

  private moved(racer: Racer | undefined): number {
    return racer === undefined ? Infinity : movedCount(racer.order, this.problem);
  }

  /** Takes back the moves that bring nothing the shows can tell, the most useless first. */
  private async pruned(best: Racer, until: number): Promise<readonly string[]> {
    const { today } = this.problem;
    let current = best;
    for (;;) {
      const kept = keptModules(today, current.order, this.fixed);
      const moves = orderMoves(today, current.order, this.fixed);
      const without = (undone: readonly OrderMove[]): Racer | undefined => {
        const left = moves.filter((one) => !undone.includes(one)).flatMap(({ modules }) => modules);
        const order = onlyMoves(today, current.order, left, kept);
        return this.allowed(order) ? this.racer(order) : undefined;
      };
      const trials = moves.flatMap((move) => {
        const racer = without([move]);
        return racer ? [{ move, racer }] : [];
      });
      // Half of what is left is kept for trying without all of them, and for another turn.
      const shows = this.affordable((until - this.spent) / 2, trials.length + 1);
      if (trials.length === 0 || shows < FEWEST_TO_PRUNE) return current.order;
      const costs = await this.costs(
        current,
        trials.map(({ racer }) => racer),
        shows,
      );
      const useless = trials.filter((_, i) => (costs[i] ?? Infinity) <= 0);
      const [least] = trials
        .map((trial, i) => ({ ...trial, cost: costs[i] ?? Infinity }))
        .toSorted((a, b) => a.cost - b.cost);
      if (least === undefined || least.cost > 0) return current.order;
      // One may stand in for another, so that all together are not as useless as each.
      const all = useless.length > 1 ? without(useless.map(({ move }) => move)) : undefined;
      const few = this.affordable(until - this.spent, 2);
      const together = all && few >= FEWEST_TO_PRUNE ? await this.costs(current, [all], few) : [];
      current = all && (together[0] ?? Infinity) <= 0 ? all : least.racer;
    }
  }

  private affordable(shows: number, racers: number): number {
    return Math.min(LONGEST_RACE, Math.floor(shows / racers));
  }

  /** By how much each is surely worse than the first: its lack less the standard error of that. */
  private async costs(first: Racer, others: readonly Racer[], shows: number): Promise<number[]> {
    const { on, sign } = this.options;
    const all = [first, ...others];
    const from = this.nextShow;
    await this.study.simulate(
      all.map(({ system: one }) => one),
      shows,
      from,
    );
    this.spent += all.length * shows;
    this.nextShow += shows;
    const column = ({ system: one }: Racer): number[] => this.study.column(one, on, shows, from);
    const base = column(first);
    return others.map((other) => {
      const found = column(other);
      const { mean, variance } = momentsOf(base.map((x, r) => sign * (x - (found[r] ?? NaN))));
      return mean - Math.sqrt(variance / shows);
    });
  }

  /** An order to be simulated, built once; undefined where the scenario does not allow it. */
  private racer(order: readonly string[]): Racer | undefined {
    const key = keyOf(order);
    if (!this.tried.has(key)) {
      const spec = this.problem.build(order);
      this.tried.set(key, spec && { order, system: system(`order ${this.tried.size + 1}`, spec) });
    }
    return this.tried.get(key);
  }
}

function keyOf(order: readonly string[]): string {
  return order.join(' ');
}
