import { describe, expect, it } from 'vitest';
import { loadScenarioFile, replicate } from '@lapwright/sim-core';
import {
  type LoopView,
  measurePlan,
  PreparedLoop,
  simulate,
} from '../../../packages/sim-core/src/model/index.js';
import type { LoopSpec } from '../../../packages/sim-core/src/model/spec/index.js';

const scenario = loadScenarioFile('scenarios/village-hall.yaml');
const { spec } = scenario;

describe('a prepared loop', () => {
  it('gives the shows that its spec gives, however many came before and in whatever way', () => {
    const loop = new PreparedLoop(spec);
    const seen: number[] = [];
    const logged: number[] = [];
    const plan = { ...measurePlan(spec), lapBins: 10 };
    simulate(loop, { seed: 9, audit: true });
    simulate(loop, { seed: 9, observe: (view: LoopView) => seen.push(view.now) });
    simulate(loop, { seed: 9, log: ({ time }) => logged.push(time) });
    expect(simulate(loop, { seed: 9, plan }).lapHistogram).toHaveLength(10);
    expect(Math.min(seen.length, logged.length)).toBeGreaterThan(10);
    for (let replication = 0; replication < 4; replication++)
      expect(simulate(loop, { seed: 3, replication })).toStrictEqual(
        simulate(spec, { seed: 3, replication }),
      );
  });

  it('stays as it was when the spec is changed afterwards', () => {
    const own = structuredClone(spec);
    const loop = new PreparedLoop(own);
    const { show } = own as { show: { seconds: number } };
    show.seconds /= 2;
    (own.modules as unknown[]).pop();
    expect(simulate(loop, { seed: 3 })).toStrictEqual(simulate(spec, { seed: 3 }));
  });

  it.each([
    ['a scenario instead of its spec', scenario],
    ['a prepared loop', new PreparedLoop(spec)],
    ['nothing', undefined],
    ['null', null],
    ['text', 'village-hall'],
    ['no crew', { ...spec, crew: undefined }],
  ])('says what is wanted where it is given %s', async (_, given) => {
    const wrong = given as unknown as LoopSpec;
    const wanted = /spec is .* but must be a LoopSpec: of a scenario that was loaded, its \.spec/;
    expect(() => new PreparedLoop(wrong)).toThrow(wanted);
    await expect(replicate(wrong, { seed: 1, replications: 1 })).rejects.toThrow(wanted);
  });
});
