import { afterAll, describe, expect, it } from 'vitest';
import type { LoopSpec } from '../../packages/sim-core/src/index.js';
import { FEATURES, FeatureCount } from './features.js';
import { measuresOfResult, measuresOfTable } from './measures.js';
import { certainScenario } from './scenarios.js';
import { shrink } from './shrink.js';
import { type Change, coreStory, phasesOf, plainStory } from './story.js';

/*
 * Two simulations written apart from each other tell the same story, event for event: random small loops and chains in
 * which nothing is left to chance, with all times on a coarse grid, so that many things fall on the same instant.
 */

/** Each block of scenarios is one test. */
const BLOCKS = 10;
const IN_A_BLOCK = 300;

/** Each feature must occur so often in all of them together. */
const AT_LEAST = 30;

const counted = new FeatureCount();
let compared = 0;

/** The first change in which two stories differ, told by both; undefined when they are the same. */
function difference(spec: LoopSpec, seed: number, features?: FeatureCount): string | undefined {
  const { story: plain, table } = plainStory(spec, phasesOf(spec, seed), features?.look);
  features?.end(table);
  const { story: core, result } = coreStory(spec, seed, plain[0]);
  const first = plain.findIndex((change, i) => !same(change, core[i]));
  if (first >= 0 || core.length > plain.length) {
    const at = first >= 0 ? first : plain.length;
    return `after ${told(plain[at - 1])}\nsecond simulation: ${told(plain[at])}\nsimulator:         ${told(core[at])}`;
  }
  const theirs = measuresOfResult(spec, result);
  for (const [name, value] of measuresOfTable(table)) {
    const other = theirs.get(name) ?? NaN;
    if (!Object.is(value, other) && !(Math.abs(value - other) < 1e-6))
      return `${name}: second simulation ${value}, simulator ${other}`;
  }
  return undefined;
}

const same = (a: Change, b: Change | undefined): boolean => a.time === b?.time && a.look === b.look;

const told = (change: Change | undefined): string =>
  change
    ? `${change.time} s (class ${change.rank}, position ${change.position}): ${change.look}`
    : 'nothing more';

/** The same question where the answer may be that a scenario is refused. */
function differs(spec: LoopSpec, seed: number): boolean {
  try {
    return difference(spec, seed) !== undefined;
  } catch {
    return false;
  }
}

describe('the second simulation and the simulator', () => {
  it.each(Array.from({ length: BLOCKS }, (_, block) => block))('tell the same stories, block %i', (block) => {
    for (let i = 0; i < IN_A_BLOCK; i++) {
      const number = block * IN_A_BLOCK + i;
      const spec = certainScenario(number);
      if (difference(spec, number, counted) !== undefined) {
        const smallest = shrink(spec, (smaller) => differs(smaller, number));
        const limitless = JSON.stringify(smallest, (_, value: unknown) =>
          value === Infinity ? '(no limit)' : value,
        );
        expect.fail(`scenario ${number}, ${difference(smallest, number)}\n${limitless}`);
      }
      compared++;
    }
  });

  afterAll(() => {
    if (process.env['PRINT_SECOND'] === undefined) return;
    const lines = [...counted.counts].map(([feature, times]) => `${feature}: ${times}`);
    process.stdout.write(`${compared} scenarios\n${lines.join('\n')}\n`);
  });

  it('have met everything often enough', () => {
    expect(compared).toBe(BLOCKS * IN_A_BLOCK);
    expect(FEATURES.filter((feature) => (counted.counts.get(feature) ?? 0) < AT_LEAST)).toEqual([]);
  });
});
