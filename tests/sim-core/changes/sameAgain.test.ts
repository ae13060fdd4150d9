import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  applyChanges,
  loadScenarioFile,
  parseScenario,
  type ScenarioText,
} from '../../../packages/sim-core/src/index.js';
import { SMALL, typed } from './smallLoop.js';

const DEMO = 'scenarios/demo.yaml';

describe.each<[string, string | ScenarioText, ReturnType<typeof parseScenario>]>([
  ['the small loop', { text: SMALL }, parseScenario(SMALL)],
  ['the demo', DEMO, loadScenarioFile(DEMO)],
])('%s', (_, from, before) => {
  const order = before.spec.modules.map(({ id }) => id);
  const pair = fc
    .tuple(fc.nat(order.length - 1), fc.nat(order.length - 1))
    .filter(([a, b]) => a !== b)
    .map(([a, b]): [string, string] => [order[a] ?? '', order[b] ?? '']);

  it('is the same scenario when nothing is changed', () => {
    const { source, changes, changesInWords, ...rest } = applyChanges(from, []);
    const { source: original, ...same } = before;
    expect(rest).toEqual(same);
    expect([source.sha256, source.changes, changes, changesInWords]).toEqual([original.sha256, [], [], []]);
  });

  it('is the same when two modules change places twice, and is not after once', () => {
    fc.assert(
      fc.property(pair, ([a, b]) => {
        const swap = ['--swap', `${a},${b}`];
        expect(applyChanges(from, typed(...swap, ...swap)).spec).toEqual(before.spec);
        expect(applyChanges(from, typed(...swap)).spec.modules).not.toEqual(before.spec.modules);
      }),
      { numRuns: 20 },
    );
  });

  it('is the same when a module goes elsewhere and back', () => {
    fc.assert(
      fc.property(pair, fc.constantFrom('--after', '--before'), ([a, b], side) => {
        const place = order.indexOf(a);
        const back = place === 0 ? ['--before', order[1] ?? ''] : ['--after', order[place - 1] ?? ''];
        const changes = typed('--move', a, side, b, '--move', a, ...back);
        expect(applyChanges(from, changes).spec).toEqual(before.spec);
      }),
      { numRuns: 20 },
    );
  });

  it('is the same when a key is set to what it is', () => {
    const { name } = before;
    expect(applyChanges(from, typed('--set', `name=${name}`)).spec).toEqual(before.spec);
  });
});
