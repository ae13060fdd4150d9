import { describe, expect, it } from 'vitest';
import { inlineAnswer } from '../../../packages/sim-core/src/answers/index.js';
import { houseRules, showsHere } from '../../../packages/sim-core/src/experiments/index.js';
import {
  type Inline,
  inline,
  plainChuteFor,
  type RuleCheck,
  Study,
  type ToleratedStops,
} from '../../../packages/sim-core/src/studies/index.js';
import type { Estimate } from '../../../packages/sim-core/src/statistics/index.js';
import { chain, holds, module, seconds } from '../../build.js';

/** A chain that gets a ball a second, with a module that takes 2 s for one: 1,800 an hour fall, less the 50 it holds. */
async function snail(limit: number): Promise<Inline> {
  const own = module('snail', { basket: holds(50), cycle: seconds(2) });
  const lift = module('lift', { basket: holds(50), cycle: seconds(0.5) });
  const show = { seconds: 3600, warmUpSeconds: 0 };
  return inline(
    new Study({ seed: 1, source: showsHere() }),
    {
      module: 'snail',
      places: [{ label: 'after lift', spec: chain([lift, own], 1, { show }) }],
      without: chain([lift], 1, { show }),
      standIn: plainChuteFor(own),
    },
    { rules: houseRules({ spills_per_hour: limit }), replications: 3 },
  );
}

function stops(changes: Partial<ToleratedStops>): ToleratedStops {
  const none = { mean: null, low: 0, high: null };
  return {
    found: 'limit',
    factor: none,
    stops_per_hour: none,
    now: 4.02,
    rule: 'spills_per_hour',
    points: [],
    replications: 3,
    ...changes,
  };
}

describe('the answer to "inline or not"', () => {
  it('is a sentence with the figure and the limit', async () => {
    const kept = inlineAnswer('Bench', await snail(2000));
    expect([kept.verdict, kept.question]).toEqual(['inline', 'inline']);
    expect(kept.sentence).toMatch(
      /^Inline: with snail after lift, 17\d\d balls per hour fall \(.*3 shows\), and the house allows 2000 per hour\.$/,
    );
    const typed = {
      file: 'bench.yaml',
      options: '--rule spills_per_hour=80',
      place: '',
      inLoop: false,
      holds: 50,
    };
    const broken = inlineAnswer('Bench', await snail(80), [], typed);
    expect(broken.sentence).toMatch(
      /^Side table: with snail after lift, .* and the house allows 80 per hour\.$/,
    );
    expect(broken.because.join(' ')).toMatch(/without snail: 0 .*a plain chute in its place: 0 /);
    expect(broken.next.join(' ')).toMatch(
      /With a plain chute in its place all rules would be kept\..*See what another basket, cycle or batch would do, such as npx lapwright inline bench\.yaml snail --after lift --rule spills_per_hour=80 --set modules\.snail\.basket=75 .*: npx lapwright inline bench\.yaml snail --anywhere --rule spills_per_hour=80$/,
    );
  });

  it('says of stops what is known, and no more', async () => {
    const found = await snail(80);
    const told = (changes: Partial<ToleratedStops>): string =>
      inlineAnswer('Bench', { ...found, stops: stops(changes) })
        .sentence.split('per hour. ')
        .slice(1)
        .join('');
    expect(told({ found: 'none' })).toMatch(/^Even if it never stopped it would not pass/);
    expect(told({ found: 'beyond', factor: { mean: null, low: 32, high: null } })).toBe(
      'It would still pass with 32 times its stops, and it has 4 an hour.',
    );
    const factor = { mean: 0.5, low: 0.4, high: 0.6 };
    expect(told({ factor, stops_per_hour: { mean: 2.11, low: 1.8, high: 2.5 } })).toBe(
      'It would pass with up to 2.1 stops per hour (95 % interval: 1.8 to 2.5 stops per hour); it has 4.',
    );
    expect(told({ factor, stops_per_hour: { mean: 2.11, low: 1.8, high: null } })).toBe(
      'It would pass with up to 2.1 stops per hour (1.8 for sure; how many are too many was not found); it has 4.',
    );
    expect(told({ factor, stops_per_hour: { mean: null, low: 1.8, high: null } })).toBe(
      'It would pass with 1.8 stops per hour and perhaps more; it has 4.',
    );
    expect(told({ stops_per_hour: { mean: 0, low: 0, high: 3 } })).toBe(
      'Even without its stops it is not sure to pass, and with 3 stops per hour it surely would not; it has 4.',
    );
    expect(told({})).toBe('How many stops it could have was not found; it has 4.');
  });

  const perHour = (mean: number, low: number, high: number): Estimate => ({
    mean,
    low,
    high,
    confidence: 0.95,
    replications: 3,
  });
  const rising = [0, 1, 2].map((factor) => ({
    factor,
    stops_per_hour: 0.06 * factor,
    figures: [perHour(70 + 100 * factor, 60 + 100 * factor, 90 + 100 * factor)],
  }));

  it('marks the most stops in the picture as the sentence has them', async () => {
    const { sentence, pictures } = inlineAnswer('Bench', {
      ...(await snail(80)),
      stops: stops({
        factor: { mean: 0.1, low: 0.05, high: 0.2 },
        stops_per_hour: { mean: 0.0662, low: 0.02, high: 0.1 },
        points: rising,
      }),
    });
    expect(sentence).toContain('up to 0.066 stops per hour');
    expect(pictures.find(({ id }) => id === 'stops')).toMatchObject({
      caption: expect.stringContaining('crosses that at 0.066 stops per hour; it has 4.') as string,
      chosen: { value: 0.0662, label: 'passes up to 0.066' },
    });
  });

  it('marks nothing where the limit is broken even without stops, and says that the curve never comes below it', async () => {
    const none = { mean: 0, low: 0, high: null };
    const { pictures } = inlineAnswer('Bench', {
      ...(await snail(60)),
      stops: stops({ found: 'none', factor: none, stops_per_hour: none, points: rising }),
    });
    expect(pictures.find(({ id }) => id === 'stops')).toMatchObject({
      caption: expect.stringContaining('The curve never comes below the limit') as string,
      chosen: null,
    });
  });

  it('blames the module only where the loop without it is better for sure', async () => {
    const found = await snail(80);
    const [rule] = found.with_it.rules as [RuleCheck];
    const without = (difference: Estimate): Inline => ({
      ...found,
      stops: stops({ found: 'none' }),
      without_it: {
        ...found.without_it,
        verdict: 'side table',
        rules: [{ ...rule, estimate: perHour(1740, 1700, 1780) }],
        differences: [difference],
      },
    });
    const innocent = inlineAnswer('Bench', without(perHour(-10, -50, 30)));
    expect(innocent.verdict).toBe('side table');
    expect(innocent.sentence).toMatch(
      /^The loop breaks this rule with or without snail: .* without it the figure is 1740 \(\d+ to \d+\) per hour, .*: -50 to 30 per hour\)/,
    );
    expect(innocent.sentence + innocent.next.join(' ')).not.toMatch(/stops|Another place/);
    const guilty = inlineAnswer('Bench', without(perHour(-40, -50, -30)));
    expect(guilty.sentence).toMatch(/^Side table: .* Even if it never stopped/);
  });

  it('gives intervals of the loops beside it, and calls undecided what is', async () => {
    const found = await snail(80);
    const [rule] = found.with_it.rules as [RuleCheck];
    const { tables } = inlineAnswer('Bench', {
      ...found,
      with_it: { ...found.with_it, rules: [{ ...rule, verdict: 'open' }] },
      without_it: { ...found.without_it, rules: [{ ...rule, estimate: perHour(40, 30, 50) }] },
    });
    expect(tables[0]?.rows[0]?.at(-1)).toBe('undecided');
    expect(tables[1]?.head).toEqual(['', 'loop', 'mean', '95 % interval', 'difference, 95 %']);
    expect(tables[1]?.rows[1]?.slice(1, 4)).toEqual(['without snail', '40 per hour', '30 to 50 per hour']);
  });
});
