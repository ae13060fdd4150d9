import { isDeepStrictEqual } from 'node:util';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type DistributionSpec,
  type Incident,
  type LoopSpec,
  simulate,
} from '../../packages/sim-core/src/index.js';
import { HeadStartRules } from '../../packages/sim-core/src/model/headStartRules.js';
import { randomLoop } from './randomLoops.js';
import { randomTable } from './randomTables.js';

/** Ways long enough to run ahead on, constant and random, and now and then one that is not. */
const WAYS: readonly DistributionSpec[] = [
  { family: 'constant', value: 8 },
  { family: 'constant', value: 2.5 },
  { family: 'uniform', min: 2, max: 30 },
  { family: 'lognormal', mean: 9, cv: 0.1 },
  { family: 'triangular', min: 3, mode: 3, max: 5 },
  { family: 'exponential', mean: 3 },
];

const backsUpAfter = ({ modules }: LoopSpec, m: number): boolean =>
  modules[(m + 1) % modules.length]?.basket.whenFull.kind === 'back_up';

/** The same table with longer ways; calm: without most of what keeps places in step. */
const roomy = (spec: LoopSpec, ways: readonly number[], calm: boolean): LoopSpec => ({
  ...spec,
  modules: spec.modules.map(({ lever, ...module }, m) => ({
    ...module,
    ...(lever && !calm && { lever }),
    // Before a basket that backs up it was seen to that every batch fits onto the way as it is.
    ...((calm || !backsUpAfter(spec, m)) && { travel: WAYS[(ways[m] ?? 0) % WAYS.length] ?? module.travel }),
    ...(calm && {
      basket: {
        ...module.basket,
        capacity: Math.max(1, module.basket.capacity),
        whenFull: { kind: 'spill' as const },
      },
      stops: module.stops.filter(({ trigger }) => trigger.kind !== 'at' && trigger.kind !== 'clock'),
    }),
  })),
});

const table = fc
  .record({
    spec: fc.oneof(randomLoop, randomTable),
    ways: fc.array(fc.nat(), { minLength: 6, maxLength: 6 }),
    calm: fc.boolean(),
  })
  .map(({ spec, ways, calm }) => roomy(spec, ways, calm));

const tableWithLongShow = table.map((spec): LoopSpec => ({
  ...spec,
  show: { seconds: 2000, warmUpSeconds: 300 },
}));

describe.each([
  ['short shows', table],
  ['long shows', tableWithLongShow],
])('places that run ahead of the others, %s', (_, tables) => {
  it('come to the same numbers and the same log as places that keep in step', () => {
    let places = 0;
    let tablesWithSome = 0;
    fc.assert(
      fc.property(tables, fc.nat(1000), (spec, replication) => {
        const told: Incident[] = [];
        const toldInStep: Incident[] = [];
        const ahead = simulate(spec, { seed: 1, replication, log: (incident) => told.push(incident) });
        const inStep = simulate(spec, {
          seed: 1,
          replication,
          log: (incident) => toldInStep.push(incident),
          // Somebody who watches every event sees all of them in order.
          observe: () => undefined,
        });
        // Asked first because it is quick; expect shows what differs.
        if (!isDeepStrictEqual([ahead, told], [inStep, toldInStep])) {
          expect(ahead).toStrictEqual(inStep);
          expect(told).toStrictEqual(toldInStep);
          expect.fail('the same to the eye, and yet not equal');
        }
        const may = new HeadStartRules(spec).may.reduce((sum, one) => sum + one, 0);
        places += may;
        if (may > 0) tablesWithSome++;
      }),
      { seed: 1213, numRuns: 300 },
    );
    expect(tablesWithSome).toBeGreaterThan(120);
    expect(places).toBeGreaterThan(240);
  });
});
