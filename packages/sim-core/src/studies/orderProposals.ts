import {
  applyStep,
  fixedModules,
  isAllowed,
  type OrderProblem,
  type OrderStep,
  randomStep,
  stepCount,
  stepsFrom,
} from './orderSteps.js';
import type { Study } from './study.js';

/** An order with its rough figure and a guess at its cost. */
export interface Proposal {
  readonly order: readonly string[];
  readonly strain: number;
  readonly cost: number;
}

/** How a proposal is to be looked for. */
export interface ProposalOptions {
  readonly cost: (order: readonly string[], strain: number) => number;
  readonly isNew: (order: readonly string[]) => boolean;
  /** Orders to look at at most. */
  readonly looks: number;
}

/** Orders looked at between two turns of others. */
const BREATH = 16;
/** Random steps from one order at most, where there are too many to try all. */
const SAMPLE = 150;
/** New orders kept on the way, in case that the end of it has been simulated already. */
const KEPT = 8;

/**
 * Looks for orders that are cheap by a guess, without simulating any: local search, one step downhill after the other until
 * none leads further down. Orders are looked at one at a time and only the best are kept, whatever the size of the loop.
 */
export class OrderProposals {
  private readonly study: Study;
  private readonly problem: OrderProblem;
  private readonly mostMoved: number;
  private readonly uniform: () => number;
  private readonly fixed: readonly string[];
  private looked = 0;

  constructor(study: Study, problem: OrderProblem, mostMoved: number, uniform: () => number) {
    this.study = study;
    this.problem = problem;
    this.mostMoved = mostMoved;
    this.uniform = uniform;
    this.fixed = fixedModules(problem.rules);
  }

  /**
   * The cheapest new order on the way downhill from a start; undefined when there is none.
   *
   * @throws StudyStopped when the study is stopped
   */
  async downhill(start: readonly string[], options: ProposalOptions): Promise<Proposal | undefined> {
    const { cost, isNew, looks } = options;
    const until = this.looked + looks;
    let fresh: Proposal[] = [];
    let current = this.seen(start, cost);
    while (this.looked < until) {
      let best = current;
      for (const step of this.steps(current.order, until - this.looked)) {
        if (++this.looked % BREATH === 0) await this.study.breathe();
        const one = this.seen(applyStep(step, current.order, this.fixed), cost);
        const worthKeeping = fresh.length < KEPT || one.cost < (fresh.at(-1)?.cost ?? Infinity);
        if ((one.cost >= best.cost && !worthKeeping) || !this.allowed(one.order)) continue;
        if (one.cost < best.cost) best = one;
        if (worthKeeping && isNew(one.order) && !fresh.some(({ order }) => same(order, one.order)))
          fresh = [...fresh, one].toSorted((a, b) => a.cost - b.cost).slice(0, KEPT);
      }
      if (best === current) break;
      current = best;
    }
    return fresh[0];
  }

  /** An allowed order some random steps away from another. */
  shaken(from: readonly string[], count: number): readonly string[] {
    let order = from;
    for (let i = 0; i < count; i++) {
      const step = randomStep(order, this.problem, this.uniform);
      const next = step === undefined ? order : applyStep(step, order, this.fixed);
      if (this.allowed(next)) order = next;
    }
    return order;
  }

  allowed(order: readonly string[]): boolean {
    return isAllowed(order, this.problem, this.mostMoved);
  }

  private seen(order: readonly string[], cost: ProposalOptions['cost']): Proposal {
    const strain = this.problem.strain(order);
    return { order, strain, cost: cost(order, strain) };
  }

  /** All steps, or as many at random as can be afforded. */
  private *steps(order: readonly string[], most: number): Generator<OrderStep> {
    if (stepCount(order, this.problem) <= Math.max(SAMPLE, most / 4)) {
      yield* stepsFrom(order, this.problem);
      return;
    }
    for (let i = 0; i < SAMPLE; i++) {
      const step = randomStep(order, this.problem, this.uniform);
      if (step !== undefined) yield step;
    }
  }
}

function same(one: readonly string[], other: readonly string[]): boolean {
  return one.every((id, i) => other[i] === id);
}
