import { bestOfQuestion, InputError, system } from '@lapwright/sim-core';
import { ask } from '../ask.js';
import { asLoop, type LoopSource } from '../load.js';
import type { Loop } from '../loop.js';
import { checkedMeasure, type MeasureName } from '../measureName.js';
import { type Amount, outOfRange, surenessOf, wholeOf } from '../optionValues.js';
import { plainly } from '../plainly.js';
import type { Reply } from '../reply.js';
import type { SimulationOptions } from '../simulating.js';
import { labelOf } from './labelOf.js';

/** By what the best is found, and how surely. */
export interface BestOfLoopsOptions extends SimulationOptions {
  /** Shows of each at most; from 10 on. @default 100 */
  readonly replications?: number;
  /** The figure that decides. @default spills_per_hour */
  readonly on?: MeasureName;
  /** Differences below this do not matter, in the unit of the figure. @default 5 % of the first one */
  readonly zone?: number;
  /** Chance that the best is named. @default 0.95 */
  readonly confidence?: Amount;
  /** Each with luck of its own instead of the same luck for all. @default false */
  readonly independent?: boolean;
}

/**
 * Finds the best of several loops with a promised chance. Write `await` before it.
 *
 * @param loops a list such as `[loop, loop.set('charge', 60)]`, or with names of your own: `{ today: loop, fewer:
 *   loop.set('charge', 60) }`; the first is what the others are measured by
 * @returns the answer, for `show`, `table` and `explain`
 * @throws InputError when there is nothing to choose from, or two are the same
 * @example
 * const bench = load('scenarios/bench-one.yaml');
 * const slow = bench.set('modules.lantern-stairs.cycle', '9 s');
 * (await bestOf({ today: bench, slow: slow }, { on: 'throughput_bps', replications: 10 })).answer.details.best // => 'today'
 */
export function bestOf(
  loops: readonly LoopSource[] | Readonly<Record<string, LoopSource>>,
  options: BestOfLoopsOptions = {},
): Promise<Reply> {
  const { replications = 100, zone, confidence = 0.95, independent = false } = options;
  return plainly(() => {
    const named = isList(loops) ? undefined : Object.keys(loops);
    const all = Object.values(loops).map(asLoop);
    const labels = named ?? labelsOf(all);
    refuseUnclear(labels);
    return ask(all, options, async (study, [first]) => {
      if (zone !== undefined && !(zone > 0 && zone < Infinity))
        throw outOfRange('zone', zone, 'a number above 0');
      const systems = all.map((loop, i) => system(labels[i] ?? '', loop.scenario.spec));
      const question = bestOfQuestion(fromOne(all) ? first?.name : undefined, systems, {
        replications: wholeOf('replications', replications, 2),
        on: checkedMeasure(options.on),
        confidence: surenessOf('confidence', confidence),
        independent,
        ...(zone !== undefined && { zone }),
      });
      return { parts: await question(study) };
    });
  });
}

function isList(
  loops: readonly LoopSource[] | Readonly<Record<string, LoopSource>>,
): loops is readonly LoopSource[] {
  return Array.isArray(loops);
}

/** Whether all are the same loop, but for changes. */
function fromOne(loops: readonly Loop[]): boolean {
  return loops.every(({ origin }) => origin.text === loops[0]?.origin.text);
}

/** Of variants of one loop what was changed; otherwise what they are. */
function labelsOf(loops: readonly Loop[]): string[] {
  if (!fromOne(loops)) return loops.map(labelOf);
  return loops.map(({ changes }) => (changes.length === 0 ? 'as it is' : changes.join(', ')));
}

function refuseUnclear(labels: readonly string[]): void {
  const twice = labels.find((label, i) => labels.indexOf(label) < i);
  if (labels.length >= 2 && twice === undefined) return;
  throw new InputError([
    twice === undefined
      ? {
          code: 'missing_key',
          path: '',
          rule: 'there is nothing to choose from',
          hint: "Name two loops or more, as in bestOf([loop, loop.set('crew.minders', 2)]).",
        }
      : {
          code: 'duplicate',
          path: '',
          rule: `two of them are called "${twice}"`,
          hint: 'Take one out if they are the same, or give them names: bestOf({ one: loop, other: loop2 }).',
        },
  ]);
}
