import { requireParameter } from '../../errors/index.js';
import { drawnOf } from '../../doubt/index.js';
import type { HouseRule } from '../../experiments/index.js';
import { fullHours, type LoopSpec, type ModuleCounted } from '../../model/spec/index.js';
import { momentsOf } from '../../statistics/index.js';
import type { Study } from '../study.js';
import { system } from '../system.js';
import { benchNext, type BenchNext } from './benchNext.js';
import { countedModules } from './countedModules.js';
import { type JudgedInDoubt, judgeInDoubt } from './judgeInDoubt.js';

/** A loop judged with what its figures were counted from kept in mind. */
export interface LookedInDoubt extends JudgedInDoubt {
  /** Draws of the parameters, and shows of each. */
  readonly draws: number;
  readonly shows_per_draw: number;
  /** The modules and spares of the loop that were counted, each with the longest time that it was counted for. */
  readonly counted: readonly { readonly module: string; readonly counted_s: number }[];
  /** For the rule that decides. */
  readonly bench: BenchNext;
}

export interface LookInDoubtOptions {
  readonly rules: readonly HouseRule[];
  /** From 20. @default 200 */
  readonly draws?: number;
  readonly confidence: number;
}

/** Two shows of each draw tell luck from the draw; more draws tell more than more shows of each. */
const SHOWS_PER_DRAW = 2;
const DRAWS = 200;

/**
 * Looks at a loop of which only counts are known: draws its parameters from what the counts leave open, simulates two shows
 * of each draw, and judges by the rules of the house. Null when nothing of this loop was counted.
 *
 * @param label of the loop, in words
 * @throws ParameterError when there are too few draws
 * @throws SimulationError when a show cannot be simulated
 * @example
 * const study = new Study({ seed: 1, source: showsHere() });
 * const counted = [{ module: 'slow', cycles: 1800, stops: [] }];
 * const found = await lookInDoubt(study, 'the loop', exampleLoop, counted, { rules: houseRules({ least_throughput: 0.5 }), draws: 20, confidence: 0.95 });
 * found.judgement.verdict // => 'inline'
 */
export async function lookInDoubt(
  study: Study,
  label: string,
  spec: LoopSpec,
  counted: readonly ModuleCounted[],
  { rules, draws = DRAWS, confidence }: LookInDoubtOptions,
): Promise<LookedInDoubt | null> {
  requireParameter(
    Number.isSafeInteger(draws) && draws >= 20,
    'lookInDoubt',
    'draws',
    draws,
    'a whole number from 20',
  );
  const all = [...spec.modules, ...(spec.spares ?? [])];
  const known = counted.flatMap((one) => {
    const module = all.find(({ id }) => id === one.module);
    return module === undefined ? [] : [{ module, counted: one }];
  });
  if (known.length === 0) return null;
  const each = SHOWS_PER_DRAW;
  const drawn = system(`${label}, parameters drawn`, spec, undefined, {
    counted: known.map((one) => one.counted),
    showsPerDraw: each,
  });
  study.expect([drawn], draws * each);
  await study.simulate([drawn], draws * each);
  const column = (measure: string): number[] => study.column(drawn, measure, draws * each);
  const judged = judgeInDoubt(rules, column, each, fullHours(spec.show), confidence);
  const decides = rules.find(({ name }) => name === judged.judgement.decides);
  const values = column(decides?.measure ?? '');
  const means = Array.from(
    { length: draws },
    (_, k) => momentsOf(values.slice(k * each, (k + 1) * each)).mean,
  );
  const told = means.flatMap((mean, draw) => (Number.isNaN(mean) ? [] : [draw]));
  const bench = benchNext(
    told.map((draw) => means[draw] ?? NaN),
    known.map((one) => ({
      ...one,
      draws: told.map((draw) => drawnOf(one.module, one.counted, { seed: study.seed, draw })),
    })),
  );
  return {
    ...judged,
    draws,
    shows_per_draw: each,
    counted: countedModules(spec, counted),
    bench,
  };
}
