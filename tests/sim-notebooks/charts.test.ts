import { loadScenarioFile, replicate, roughCut, toRunResult } from '@lapwright/sim-core';
import { figures, toSvg } from '@lapwright/sim-notebooks';
import { expect, describe, it } from 'vitest';
import { escapeHtml } from '../../packages/sim-notebooks/src/report/html.js';
import { AMOUNT_SCHEME, FIVE_PARTS, THREE_PARTS } from '../../packages/sim-notebooks/src/theme/index.js';

/** Relative luminance of a colour (WCAG 2.1, definition of relative luminance). */
function luminance(hex: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5]
    .map((i) => Number.parseInt(hex.slice(i, i + 2), 16) / 255)
    .map((c) => (c <= 0.03928 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(a: string, b: string): number {
  const [high = 0, low = 0] = [luminance(a), luminance(b)].toSorted((x, y) => y - x);
  return (high + 0.05) / (low + 0.05);
}

describe('charts', () => {
  it('compile without a warning for every scenario, and every one with text has a caption with numbers', async () => {
    for (const file of ['demo', 'bench-one', 'chain-of-five']) {
      const scenario = loadScenarioFile(`scenarios/${file}.yaml`);
      const { summary } = await replicate(scenario.spec, { seed: 1, replications: 3, workers: 2 });
      const result = toRunResult(scenario, summary, { seed: 1, asked: 3 });
      const all = figures(result, scenario, roughCut(scenario.spec));
      expect(all).toHaveLength(9);
      for (const { spec, caption, title } of all) {
        expect(caption.length, title).toBeGreaterThan(10);
        if (spec) expect(await toSvg(spec)).toMatch(/^<svg[\s\S]*<\/svg>$/);
      }
    }
  });

  it('refuse a specification that compiles with a warning', async () => {
    // Two channels of one scale, one with a legend and one without: vega-lite has to choose, and says so.
    const amount = { field: 'a', type: 'quantitative' };
    const spec = {
      description: 'wrong',
      data: { values: [{ a: 1 }, { a: 2 }] },
      mark: 'rect',
      encoding: {
        x: amount,
        color: { ...amount, legend: { orient: 'top' } },
        stroke: { ...amount, legend: null },
      },
    };
    await expect(toSvg(spec)).rejects.toThrow(/chart "wrong"/);
  });

  it('part colours that stand side by side differ in lightness, so that they stay apart in black and white', () => {
    for (const parts of [THREE_PARTS, FIVE_PARTS]) {
      for (const [i, colour] of parts.slice(1).entries())
        expect(contrast(parts[i] ?? '', colour), `${parts[i]} beside ${colour}`).toBeGreaterThan(1.25);
    }
    expect(AMOUNT_SCHEME).toBe('yelloworangebrown');
  });
});

describe('escapeHtml', () => {
  it('leaves nothing that HTML would take for its own', () => {
    expect(escapeHtml(`<a href='x' title="y">&</a>`)).toBe(
      '&lt;a href=&#39;x&#39; title=&quot;y&quot;&gt;&amp;&lt;/a&gt;',
    );
  });
});
