import { requireParameter } from '../../errors/index.js';
import { isCertain, MEASURES } from '../../experiments/index.js';
import type { LoopSpec } from '../../model/spec/index.js';
import type { Estimate, PairedDifference } from '../../statistics/index.js';
import { measureEstimate } from '../measureEstimate.js';
import { pairedOverShows } from '../overShows.js';
import type { Study } from '../study.js';
import { type System, system } from '../system.js';

/** Number of the first show that a judgement rests on: luck that nothing was chosen by. */
export const FRESH = 1_000_000;

/** How surely and from how many shows. */
export interface LookOptions {
  /** Shows of each value for a first look. */
  readonly explore: number;
  /** Shows of each value that is judged, with luck of their own. */
  readonly replications: number;
  readonly confidence: number;
  readonly on: string;
}

/** The values of something that is varied that were looked at, each with a few shows or judged with fresh ones. */
export class Looked {
  readonly options: LookOptions;
  private readonly study: Study;
  private readonly build: (value: number) => LoopSpec | undefined;
  private readonly systems = new Map<number, System | undefined>();
  private readonly explored = new Set<number>();
  private readonly judgedOnes = new Set<number>();

  constructor(study: Study, build: (value: number) => LoopSpec | undefined, options: LookOptions) {
    this.study = study;
    this.build = build;
    this.options = options;
  }

  /** All values that were looked at, rising. */
  get values(): number[] {
    return [...this.explored, ...this.judgedOnes]
      .filter((value, i, all) => all.indexOf(value) === i)
      .toSorted((a, b) => a - b);
  }

  get exploredValues(): number[] {
    return [...this.explored].toSorted((a, b) => a - b);
  }

  /** Whether there is a loop with this value. */
  can(value: number): boolean {
    if (!this.systems.has(value)) {
      const spec = this.build(value);
      this.systems.set(value, spec && system(String(value), spec));
    }
    return this.systems.get(value) !== undefined;
  }

  systemAt(value: number): System {
    requireParameter(this.can(value), 'howMany', 'value', value, 'one that a loop can be made with');
    return this.systems.get(value) as System;
  }

  isJudged(value: number): boolean {
    return this.judgedOnes.has(value);
  }

  /** A first look at these values. */
  async explore(values: readonly number[]): Promise<void> {
    const systems = values.map((value) => this.systemAt(value));
    this.study.expect(systems, this.options.explore);
    await this.study.simulate(systems, this.options.explore);
    for (const value of values) this.explored.add(value);
  }

  /** Fresh shows of these values; `later` is what will probably be judged too. */
  async judge(values: readonly number[], later: readonly number[] = []): Promise<void> {
    const { replications } = this.options;
    const all = [...values, ...later].map((value) => this.systemAt(value));
    this.study.expect(all, replications, FRESH);
    await this.study.simulate(all.slice(0, values.length), replications, FRESH);
    for (const value of values) this.judgedOnes.add(value);
  }

  /** A measure at a value: from the fresh shows if it was judged, else from the first look. */
  estimate(
    value: number,
    measure: string = this.options.on,
    judged: boolean = this.isJudged(value),
    confidence: number = this.options.confidence,
  ): Estimate {
    const { spec } = this.systemAt(value);
    return measureEstimate(measure, this.column(value, measure, judged), {
      show: spec.show,
      confidence,
      certain: isCertain(measure, spec),
    });
  }

  /** Every measure at a value. */
  estimates(value: number): { readonly measure: string; readonly estimate: Estimate }[] {
    return MEASURES.map(({ id }) => ({ measure: id, estimate: this.estimate(value, id) }));
  }

  /** The change of a measure from one value to another, show by show with the same luck. */
  difference(
    measure: string,
    from: number,
    to: number,
    judged: boolean,
    confidence: number,
  ): PairedDifference {
    const pair = [from, to].map((value) => this.systemAt(value));
    const certain = pair[0]?.key === pair[1]?.key || pair.every(({ spec }) => isCertain(measure, spec));
    return pairedOverShows(
      this.column(from, measure, judged),
      this.column(to, measure, judged),
      confidence,
      certain,
    );
  }

  /** A measure at a value, one number for each show: of the fresh ones, or of the first look. */
  column(value: number, measure: string, judged: boolean): number[] {
    const { explore, replications } = this.options;
    const at = this.systemAt(value);
    return judged
      ? this.study.column(at, measure, replications, FRESH)
      : this.study.column(at, measure, explore);
  }
}
