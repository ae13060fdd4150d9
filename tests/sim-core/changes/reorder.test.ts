import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  applyChanges,
  type Change,
  moveSteps,
  reorder,
  system,
} from '../../../packages/sim-core/src/index.js';
import { small, SMALL } from './smallLoop.js';

const TODAY = ['lift', 'tipper', 'wheel', 'stair', '7'];
const asOrdered = reorder({ text: SMALL, file: 'small.yaml' });

/** The same order by `--move`, one module after the other. */
function asMoved(
  from: { readonly text: string } | string,
  today: readonly string[],
  order: readonly string[],
) {
  const changes = moveSteps(today, order, []).map(({ module, side, beside }): Change => ({
    kind: 'move',
    module,
    place: { side, module: beside },
  }));
  return applyChanges(from, changes).spec;
}

describe('another order', () => {
  it('is the same as by --move, whatever it is, with charges, levers, chutes and sweeping by name', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray(TODAY, { minLength: TODAY.length }), (order) => {
        const spec = asOrdered(order);
        expect(spec).toEqual(asMoved({ text: SMALL }, TODAY, order));
        expect(spec?.modules.map(({ id }) => id)).toEqual(order);
      }),
      { numRuns: 100, seed: 4 },
    );
    expect(asOrdered(TODAY)).toEqual(small().spec);
    expect(asOrdered(['tipper', 'lift', 'wheel', 'stair', '7'])).toEqual(small('--swap', 'lift,tipper').spec);
  });

  it('is the same for the fifty modules of the demo, in which a lever watches whatever comes next', () => {
    const demo = 'scenarios/demo.yaml';
    const today = applyChanges(demo, []).spec.modules.map(({ id }) => id);
    const build = reorder(demo);
    fc.assert(
      fc.property(
        fc.tuple(fc.nat(48), fc.nat(48)).map(([from, to]) => {
          const rest = today.toSpliced(from + 1, 1);
          return rest.toSpliced(to + 1, 0, today[from + 1] ?? '');
        }),
        (order) => {
          const spec = build(order);
          const moved = asMoved(demo, today, order);
          expect(spec && system('a', spec).key).toBe(system('b', moved).key);
          const lever = moved.modules.findIndex(({ lever: one }) => one !== undefined);
          expect(spec?.modules[lever]?.lever?.watches).toEqual([(lever + 1) % 50]);
        },
      ),
      { numRuns: 12, seed: 4 },
    );
  });

  it('is undefined where the scenario does not allow it', () => {
    const text = SMALL.replace(
      'wheel: { like: plain, lever: { watches: [stair, lift], takes: 5 s } }',
      'wheel: { like: plain, lever: { takes: 5 s } }',
    )
      .replace(/^charge: .*$/m, 'feed: { steady: 1 bps }')
      .replace(/^ {2}top_up: .*\n/m, '');
    const chain = reorder({ text });
    expect(chain(TODAY)).toBeDefined();
    // A lever that watches what comes next cannot stand last in a chain.
    expect(chain(['lift', 'tipper', 'stair', '7', 'wheel'])).toBeUndefined();
    expect(chain(TODAY)).toBeDefined();
  });
});
