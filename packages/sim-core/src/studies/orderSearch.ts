import { keptModules, type OrderMove, orderMoves, onlyMoves } from '../orders/index.js';
import { stream } from '../random/index.js';
import { momentsOf } from '../statistics/index.js';
import type { FittedOrders } from './fittedOrders.js';
import { OrderModel } from './orderModel.js';
import { OrderProposals } from './orderProposals.js';
import { race, type Racer } from './orderRace.js';
import { fixedModules, type OrderProblem } from './orderSteps.js';
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

/** Shares of the shows: for learning, and for the race of the best of what was learned; the rest tries whether every move is needed. */
const LEARNING = 0.55;
const RACING = 0.25;
/** New orders in one round, shows of each, and orders of earlier rounds that meet them: more where there are shows for it. */
const NEW = 6;
const SHOWS = 2;
const ELITES = 2;
const MOST_NEW = 16;
const MOST_SHOWS = 6;
const ROUNDS = 20;
/** Orders that race in the end besides the one to begin with. */
const FINALISTS = 3;
/** Shows of each in one race at most. */
const LONGEST_RACE = 16;
/** Standard errors by which the start must be beaten for an order to be proposed. */
const CLEARLY = 0.5;
/** Orders looked at by the guesses in one round: so many for each module that there is, within limits. */
const LOOKS = 100_000;
const FEWEST_LOOKS = 300;
const MOST_LOOKS = 3000;
/** Random steps away where a search by a guess begins. */
const SHAKE = 3;
/** Guesses are bolder where there is less to be learned. */
const BOLD_BELOW = 8;
/** Shows of each below which it is not tried whether a move is needed. */
const FEWEST_TO_PRUNE = 3;
/** A move that brings less of the whole gain is left out where that is not clear. */
const LITTLE = 0.1;

/** What is known of an order that was simulated. */
interface Tried {
  readonly racer: Racer;
  readonly strain: number;
}

/**
 * Looks for a better order within a number of shows.
 *
 * In rounds: some new orders and the best of those before are simulated on shows of that round, the same for all of them. A
 * model (see {@link OrderModel}) learns from all rounds what it costs that modules stand beside or behind each other, and how
 * far the rough figure can be trusted. The new orders of the next round are the cheapest by guesses that what was seen
 * allows, the best guess among them; each is looked for by local search, which simulates nothing. In the end the best race
 * against the order to begin with, on new shows. Then every move is tried without, and left out where it brings little that
 * the shows can tell.
 */
export class OrderSearch {
  private readonly study: Study;
  private readonly problem: OrderProblem;
  private readonly options: OrderSearchOptions;
  private readonly fixed: readonly string[];
  private readonly tried = new Map<string, Tried | undefined>();
  private readonly uniform: () => number;
  private readonly indexes: ReadonlyMap<string, number>;
  private readonly model: OrderModel;
  private readonly proposals: OrderProposals;
  private spent = 0;
  private nextShow = 0;
  private round = 0;

  constructor(study: Study, problem: OrderProblem, options: OrderSearchOptions) {
    this.study = study;
    this.problem = problem;
    this.options = options;
    this.fixed = fixedModules(problem.rules);
    this.uniform = stream({ seed: study.seed, replication: 0, place: null, purpose: 'best-order' });
    this.indexes = new Map(problem.today.map((id, m) => [id, m]));
    this.model = new OrderModel(problem.today.length, problem.closed, this.uniform);
    this.proposals = new OrderProposals(study, problem, options.mostMoved, this.uniform);
  }

  async run(): Promise<OrderFound> {
    const { start, budget } = this.options;
    const first = this.racer(start);
    if (first === undefined) return { order: start, spent: 0, orders: 0 };
    const best = await this.raced(
      first,
      await this.learned(first, budget * LEARNING),
      budget * (LEARNING + RACING),
    );
    const order = best === first ? start : await this.pruned(best, budget);
    const simulated = [...this.tried.values()].filter((one) => one !== undefined).length;
    return { order, spent: this.spent, orders: simulated };
  }

  /** Rounds of new orders, each on shows of its own; gives the best of all, the best first. */
  private async learned(first: Racer, until: number): Promise<readonly Racer[]> {
    const more = Math.sqrt(Math.max(1, until / (ROUNDS * (NEW + ELITES) * SHOWS)));
    const width = Math.min(MOST_NEW, Math.round(NEW * more));
    const shows = Math.min(MOST_SHOWS, Math.round(SHOWS * more));
    let elites: readonly Racer[] = [first];
    for (;;) {
      const affordable = Math.floor((until - this.spent) / shows) - Math.min(ELITES, elites.length);
      if (affordable < 1) return elites;
      const fitted = this.model.fit();
      const racers = await this.newOrders(elites, fitted, Math.min(width, affordable));
      if (racers.length === 0) return elites;
      await this.simulated([...elites.slice(0, ELITES), ...racers], shows);
      elites = this.ranked(first);
    }
  }

  /** New orders that are cheap by guesses: the best guess, and others that what was seen allows. */
  private async newOrders(
    elites: readonly Racer[],
    fitted: FittedOrders | undefined,
    most: number,
  ): Promise<readonly Racer[]> {
    const { length } = this.problem.today;
    const looks = Math.max(FEWEST_LOOKS, Math.min(MOST_LOOKS, LOOKS / length)) / most;
    const boldness = Math.min(1, BOLD_BELOW / length);
    const racers: Racer[] = [];
    for (let i = 0; i < most; i++) {
      const guess = i === 0 ? fitted?.best : fitted?.drawn(boldness);
      const from = elites[i % Math.min(elites.length, ELITES)]?.order ?? this.options.start;
      const found = await this.proposals.downhill(i < 2 ? from : this.proposals.shaken(from, SHAKE), {
        cost: guess ? (order, strain) => guess.cost(this.indexed(order), strain) : (_, strain) => strain,
        isNew: (order) => !this.tried.has(keyOf(order)),
        looks,
      });
      const racer = found && this.racer(found.order);
      if (racer) racers.push(racer);
    }
    return racers;
  }

  /** Simulates orders on shows that none has met, and learns from them. */
  private async simulated(racers: readonly Racer[], shows: number): Promise<void> {
    const { on, sign } = this.options;
    const from = this.nextShow;
    await this.study.simulate(
      racers.map(({ system: one }) => one),
      shows,
      from,
    );
    this.spent += racers.length * shows;
    this.nextShow += shows;
    this.round++;
    for (const racer of racers) {
      const sum = this.study.column(racer.system, on, shows, from).reduce((total, x) => total + x, 0);
      this.learn(racer, (-sign * sum) / shows, shows);
    }
  }

  /** The orders that were simulated, the best first by what was learned from all. */
  private ranked(first: Racer): readonly Racer[] {
    const fitted = this.model.fit();
    if (fitted === undefined) return [first];
    const all = [...this.tried.values()].flatMap((one) => (one ? [one] : []));
    return all
      .map(({ racer, strain }) => ({ racer, cost: fitted.triedCost(this.indexed(racer.order), strain) }))
      .toSorted((a, b) => a.cost - b.cost)
      .slice(0, FINALISTS)
      .map(({ racer }) => racer);
  }

  /** The best against the order to begin with, on new shows; that order when none is clearly better. */
  private async raced(first: Racer, best: readonly Racer[], until: number): Promise<Racer> {
    const racers = [first, ...best.filter((one) => one !== first).slice(0, FINALISTS)];
    if (racers.length < 2) return first;
    const { on, sign } = this.options;
    const limits = { on, sign, from: this.nextShow, most: LONGEST_RACE, budget: until - this.spent };
    const { close, ratios, means, spent, shows } = await race(this.study, racers, limits);
    this.spent += spent;
    this.nextShow += shows;
    this.round++;
    for (const i of close) if (racers[i]) this.learn(racers[i], -(means[i] ?? NaN), shows);
    // Among those that the race cannot tell apart what was learned before decides.
    const fitted = this.model.fit();
    const known = (i: number): number => {
      const order = racers[i]?.order ?? [];
      return fitted?.triedCost(this.indexed(order), this.tried.get(keyOf(order))?.strain ?? 0) ?? 0;
    };
    const leader = close.reduce((least, i) => (known(i) < known(least) ? i : least), close[0] ?? 0);
    return (ratios[leader] ?? 0) > CLEARLY ? (racers[leader] ?? first) : first;
  }

  private learn({ order }: Racer, value: number, shows: number): void {
    const strain = this.tried.get(keyOf(order))?.strain ?? 0;
    this.model.add({ order: this.indexed(order), strain, round: this.round, value, shows });
  }

  private indexed(order: readonly string[]): number[] {
    return order.map((id) => this.indexes.get(id) ?? 0);
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
        return this.proposals.allowed(order) ? this.racer(order) : undefined;
      };
      const trials = moves.flatMap((move) => {
        const racer = without([move]);
        return racer ? [{ move, racer }] : [];
      });
      // Half of what is left is kept for trying without all of them, and for another turn.
      const shows = this.affordable((until - this.spent) / 2, trials.length + 2);
      if (trials.length === 0 || shows < FEWEST_TO_PRUNE) return current.order;
      const racers = trials.map(({ racer }) => racer);
      const costs = await this.costs(current, racers, shows);
      const useless = trials.filter((_, i) => (costs[i] ?? Infinity) <= 0);
      const [least] = trials
        .map((trial, i) => ({ ...trial, cost: costs[i] ?? Infinity }))
        .toSorted((a, b) => a.cost - b.cost);
      if (least === undefined || least.cost > 0) return current.order;
      // One may stand in for another, so that all together are not as useless as each.
      const all = useless.length > 1 ? without(useless.map(({ move }) => move)) : undefined;
      const few = this.affordable(until - this.spent, 3);
      const together = all && few >= FEWEST_TO_PRUNE ? await this.costs(current, [all], few) : [];
      current = all && (together[0] ?? Infinity) <= 0 ? all : least.racer;
    }
  }

  private affordable(shows: number, racers: number): number {
    return Math.min(LONGEST_RACE, Math.floor(shows / racers));
  }

  /**
   * By how much each is worse than the first; where that is little of what the first gains over the start, by how much it is
   * surely worse: its lack less the standard error of that.
   */
  private async costs(first: Racer, others: readonly Racer[], shows: number): Promise<number[]> {
    const { on, sign, start } = this.options;
    const today = this.racer(start);
    const all = [first, ...others, ...(today ? [today] : [])];
    const from = this.nextShow;
    const systems = all.map(({ system: one }) => one);
    await this.study.simulate(systems, shows, from);
    this.spent += all.length * shows;
    this.nextShow += shows;
    const column = ({ system: one }: Racer): number[] => this.study.column(one, on, shows, from);
    const base = column(first);
    const lacks = all.slice(1).map((other) => {
      const found = column(other);
      return momentsOf(base.map((x, r) => sign * (x - (found[r] ?? NaN))));
    });
    const gain = today ? (lacks.at(-1)?.mean ?? 0) : 0;
    return others.map((_, i) => {
      const { mean, variance } = lacks[i] ?? { mean: Infinity, variance: 0 };
      return mean > LITTLE * gain ? mean : mean - Math.sqrt(variance / shows);
    });
  }

  /** An order to be simulated, built once; undefined where the scenario does not allow it. */
  private racer(order: readonly string[]): Racer | undefined {
    const key = keyOf(order);
    if (!this.tried.has(key)) {
      const spec = this.problem.build(order);
      const racer = spec && { order, system: system(`order ${this.tried.size + 1}`, spec) };
      this.tried.set(key, racer && { racer, strain: this.problem.strain(order) });
    }
    return this.tried.get(key)?.racer;
  }
}

function keyOf(order: readonly string[]): string {
  return order.join(' ');
}
