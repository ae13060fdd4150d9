import { describe, expect, it } from 'vitest';
import { whenItStopsAnswer } from '../../../packages/sim-core/src/answers/index.js';
import { showsHere } from '../../../packages/sim-core/src/experiments/index.js';
import type { LoopSpec, ModuleSpec } from '../../../packages/sim-core/src/model/spec/index.js';
import { Study, whenItStops, type WhenItStops } from '../../../packages/sim-core/src/studies/index.js';
import { chain, lift } from '../studies/stopLoops.js';

const SHOW = { seconds: 1200, warmUpSeconds: 0 };
const ball = (mean: number, low: number, high: number) => ({
  mean,
  low,
  high,
  confidence: 0.95,
  replications: 40,
});

/** A ball a second for a lift with room for 30, which stands still for a minute; perhaps its rule pulls it. */
async function stopped(pull?: ModuleSpec['pull']): Promise<WhenItStops> {
  const spec: LoopSpec = {
    ...chain([lift('lift', { ...(pull && { pull }) })], { family: 'constant', value: 1 }, SHOW.seconds, 0),
    crew: { duty: [{ fromSeconds: 0, minders: 1 }], rule: 'first_come' },
  };
  return whenItStops(new Study({ seed: 1, source: showsHere() }), spec, {
    module: 'lift',
    replications: 2,
    atSeconds: 100.5,
    stopSeconds: 60,
    watchSeconds: 400,
  });
}

const told = (found: WhenItStops) => whenItStopsAnswer(found, { show: SHOW, typed: false });

describe('the balls that fall when a module stops', () => {
  it('add up in the sentence and in the table, when fewer fall later', async () => {
    const found = await stopped();
    const { sentence, tables } = told({
      ...found,
      spilled: { while_stopped: ball(99.4, 95, 104), after: ball(-42.6, -46, -39), all: ball(56.8, 50, 63) },
    });
    expect(sentence).toContain(
      '99 balls fall while it stands still and 42 fewer later, because fewer balls go round: 57 in all because of it on average (95 % interval 50 to 63 balls, 2 pairs of shows).',
    );
    expect(tables[1]?.rows.map(([, mean]) => mean)).toEqual(['99 balls', '-42 balls', '57 balls']);
  });

  it('say so when in all no more fall, and give no reason that luck may have made', async () => {
    const found = await stopped();
    const all = (after: ReturnType<typeof ball>, sum: ReturnType<typeof ball>): string =>
      told({ ...found, spilled: { while_stopped: ball(20, 18, 22), after, all: sum } }).sentence;
    expect(all(ball(-25, -30, -20), ball(-5, -12, 2))).toContain(
      '20 balls fall while it stands still and 25 fewer later, because fewer balls go round: 5 fewer in all than without the stop',
    );
    expect(all(ball(-20, -26, -14), ball(0, -7, 7))).toContain('as many in all as without the stop');
    expect(all(ball(-3, -12, 6), ball(17, 7, 27))).toContain(
      '20 balls fall while it stands still and 3 fewer later: 17 in all',
    );
    expect(all(ball(0, 0, 0), ball(20, 18, 22))).toContain(
      'while it stands still and no more later: 20 in all',
    );
  });
});

describe('a stop that ends with the module being pulled', () => {
  it('says that the rule of the file did it, and after how long', async () => {
    // Given up 20 s after it stopped, and then 15 s of work: 35 s. The 31st ball comes 30.5 s after the stop.
    const found = await stopped({
      outlastsSeconds: 20,
      spares: [],
      chute: { family: 'constant', value: 5 },
      swap: { family: 'constant', value: 15 },
    });
    expect(found.pulled.mean).toBe(1);
    expect(found.pulled_after?.p50.mean).toBeCloseTo(35, 9);
    expect(told(found).sentence).toContain(
      'In 100 % of the shows the rule of the file pulls lift while it is stopped; in half of them something else runs in its place after 35 s',
    );
    // Balls come 31 to 35 s after 100: the last five before the chute stands find no room.
    expect(told(found).sentence).toMatch(/5 balls fall while it stands still/);
    expect((await stopped()).pulled_after).toBeNull();
    expect(told(await stopped()).sentence).not.toContain('rule of the file');
  });
});
