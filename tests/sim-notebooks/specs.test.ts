import { KINDS, parseScenario, roughCut } from '@lapwright/sim-core';
import { toSvg } from '@lapwright/sim-notebooks';
import { describe, expect, it } from 'vitest';
import { floodRows, pairRows } from '../../packages/sim-notebooks/src/rows/index.js';
import { floodCaption, pairsCaption } from '../../packages/sim-notebooks/src/words/index.js';
import { estimate, everyChart, floods, rough } from './everyChart.js';

/*
 * Every chart there is, as a specification: kept rounded, so that a change shows in review, and compiled without a warning.
 */

/** Numbers to four digits and long lists by their first three: what matters of a specification in review. */
function rounded(value: unknown): unknown {
  if (typeof value === 'number') return Number(value.toPrecision(4));
  if (Array.isArray(value)) {
    const items = value as readonly unknown[];
    const few =
      items.length > 8 && items.every((item) => typeof item === 'object') ? items.slice(0, 3) : items;
    return [
      ...few.map(rounded),
      ...(few.length < items.length ? [`and ${items.length - few.length} more`] : []),
    ];
  }
  if (typeof value === 'object' && value !== null)
    return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, rounded(inner)]));
  return value;
}

describe('every chart', () => {
  it('that the project knows of is here', () => {
    expect(everyChart.map(([id]) => id)).toEqual(
      expect.arrayContaining([
        'loop-time',
        'throughput',
        'levels',
        'risk',
        'crew',
        'places',
        'pulls',
        'compare: differences',
        'mend-first: gains',
        'pairs',
        'sweep',
        'orders',
        'flood clock',
        'timeline',
      ]),
    );
  });

  it.each(everyChart)('%s compiles without a warning and is as it was', async (_, spec) => {
    expect(String(spec['description']).length).toBeGreaterThan(10);
    const svg = await toSvg(spec);
    const [, width, height] = /^<svg[^>]*width="([\d.]+)" height="([\d.]+)"/.exec(svg) ?? [];
    // White paper under all of it, for dark pages.
    expect(svg).toContain(`<rect width="${width}" height="${height}" fill="white"/>`);
    expect(/NaN|undefined/.exec(svg)?.[0]).toBeUndefined();
    expect(rounded(spec)).toMatchSnapshot();
  });
});

describe('the paired differences', () => {
  it('are after minus before, without shows in which nothing was measured', () => {
    expect(pairRows([10, NaN, 4, 7], [12, 3, 1, NaN])).toEqual([
      { show: 0, difference: 2 },
      { show: 2, difference: -3 },
    ]);
  });

  it('are counted in the caption', () => {
    const rows = pairRows([1, 1, 1, 1], [2, 0, 0, 1]);
    const caption = pairsCaption(rows, {
      title: 'stops',
      kind: KINDS.perHour,
      difference: estimate(-0.25, -1.77, 1.27),
    });
    expect(caption).toContain('more in 1, less in 2, the same in 1 of 4 shows');
    expect(caption).toContain('-1.77 to 1.27 per hour');
  });
});

describe('the flood clock', () => {
  it('has the modules whose basket can run over, the soonest first', () => {
    const minutes = floods.map((row) => row.minutes);
    expect(minutes.length).toBe(20);
    expect(minutes).toEqual(minutes.toSorted((a, b) => a - b));
    expect(floodCaption([], { ...rough, modules: [] })).toBe(
      'No basket here can run over because its own module stops.',
    );
  });

  it('by hand: 30 balls into an empty basket at one a second take half a minute', () => {
    const bench = parseScenario(
      '{ name: bench, show: { lasts: 1 h }, feed: { steady: 1 bps }, modules: { lift: { basket: 30, drive: demand, start_at: 1, cycle: 0.01 s, travel: 5 s } } }',
    );
    const [row] = floodRows(roughCut(bench.spec), 5);
    expect(row?.minutes).toBeCloseTo(0.5, 2);
  });
});
