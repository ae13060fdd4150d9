import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';
import { type Curve, curvesChart, toSvg } from '@lapwright/sim-notebooks';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { liveBundle } from '../../packages/sim-notebooks/src/display/index.js';
import { PROJECT } from '../../packages/sim-notebooks/src/jupyter/kernelFolder.js';
import { CHART_CONFIG } from '../../packages/sim-notebooks/src/theme/index.js';
import { findBrowser } from '../browser/findBrowser.mjs';
import { everyChart } from '../sim-notebooks/everyChart.js';

/*
 * Live charts as JupyterLab draws them: by its own renderer of Vega-Lite 5, in a browser, on a light page and a dark one.
 */
const MEDIA_TYPE = 'application/vnd.vegalite.v5+json';
const FOLDER = join(PROJECT, '.artefacts', 'live');

const RENDERER = `import { rendererFactory } from '@jupyterlab/vega5-extension';
window.draw = async (data, dark) => {
  document.body.dataset.jpThemeLight = String(!dark);
  document.body.style.background = dark ? '#111' : '#fff';
  const renderer = rendererFactory.createRenderer({ mimeType: '${MEDIA_TYPE}', resolver: null, sanitizer: null, linkHandler: null, latexTypesetter: null });
  document.body.replaceChildren(renderer.node);
  await renderer.renderModel({ data, metadata: {}, trusted: true, setData: () => undefined });
};`;

const program = findBrowser();

// Without a browser ensurePrograms has said so; in continuous integration it has failed.
describe.runIf(program !== undefined)('live charts, drawn by JupyterLab’s renderer', () => {
  let browser: Browser;
  let page: Page;
  const troubles: string[] = [];

  beforeAll(async () => {
    mkdirSync(FOLDER, { recursive: true });
    const built = await build({
      stdin: { contents: RENDERER, resolveDir: PROJECT },
      bundle: true,
      format: 'iife',
      platform: 'browser',
      write: false,
      logLevel: 'silent',
    });
    browser = await chromium.launch({
      executablePath: program ?? '',
      args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-sync'],
    });
    page = await browser.newPage({ viewport: { width: 1100, height: 900 } });
    page.on('console', (message) => troubles.push(message.text()));
    page.on('pageerror', (error) => troubles.push(String(error)));
    await page.setContent('<!doctype html><html><body></body></html>');
    await page.addScriptTag({ content: built.outputFiles[0]?.text ?? '' });
  }, 120_000);
  afterAll(() => browser?.close());

  it.each(everyChart)('%s', async (name, spec) => {
    const svg = await toSvg(spec);
    const words = { title: name, caption: name, titleHtml: name, captionHtml: name };
    const data = await liveBundle(spec, CHART_CONFIG, { ...words, svg });
    const pictures: string[] = [];
    for (const dark of [false, true]) {
      await page.evaluate(
        async ([bundle, night]) => {
          const { draw } = window as unknown as { draw: (data: unknown, dark: boolean) => Promise<void> };
          await draw(bundle, night);
        },
        [{ [MEDIA_TYPE]: data[MEDIA_TYPE], 'image/png': 'there' }, dark] as const,
      );
      const drawn = await page.locator('canvas').evaluate((element) => {
        const canvas = element as HTMLCanvasElement;
        const dots = canvas.getContext('2d')?.getImageData(0, 0, canvas.width, canvas.height).data ?? [];
        const colours = new Set<number>();
        let clear = 0;
        for (let i = 0; i < dots.length; i += 4) {
          colours.add(((dots[i] ?? 0) << 16) | ((dots[i + 1] ?? 0) << 8) | (dots[i + 2] ?? 0));
          if ((dots[i + 3] ?? 0) < 255) clear++;
        }
        return { colours: colours.size, clear, width: canvas.width, url: canvas.toDataURL() };
      });
      expect(drawn.width).toBeGreaterThan(300);
      expect(drawn.colours).toBeGreaterThan(10);
      expect(drawn.clear).toBe(0);
      pictures.push(drawn.url);
    }
    // On a dark page the renderer brings a dark theme; the chart's own settings must win in everything.
    expect(pictures[1] === pictures[0], 'the same on a dark page').toBe(true);
    expect(troubles).toEqual([]);
    if (name === 'levels') await page.screenshot({ path: join(FOLDER, 'levels-dark.png') });
  });

  it('a slider brings another curve to the front', async () => {
    const curve = (at: number): Curve => ({
      label: `at ${at}`,
      at,
      points: [1, 2, 3].map((x) => ({ x, y: x * at })),
    });
    const spec = curvesChart([curve(1), curve(2), curve(4)], {
      title: 'Slide',
      caption: 'Three lines and a slider.',
      x: 'x',
      y: 'y',
      slider: { title: 'times', start: 1 },
    });
    const words = {
      title: 'Slide',
      caption: 'Three lines.',
      titleHtml: 'Slide',
      captionHtml: 'Three lines.',
    };
    const data = await liveBundle(spec, CHART_CONFIG, { ...words, svg: await toSvg(spec) });
    await page.evaluate(
      async (bundle) => {
        const { draw } = window as unknown as { draw: (data: unknown, dark: boolean) => Promise<void> };
        await draw(bundle, false);
      },
      { [MEDIA_TYPE]: data[MEDIA_TYPE] } as const,
    );
    const slider = page.locator('input[type=range]');
    expect(await slider.count()).toBe(1);
    expect([await slider.getAttribute('min'), await slider.getAttribute('max')]).toEqual(['1', '4']);
    const drawn = (): Promise<string> =>
      page.locator('canvas').evaluate((canvas) => (canvas as HTMLCanvasElement).toDataURL());
    const first = await drawn();
    await slider.fill('4');
    await expect.poll(drawn).not.toBe(first);
    const last = await drawn();
    await page.screenshot({ path: join(FOLDER, 'slider.png') });
    await slider.fill('1');
    await expect.poll(drawn).toBe(first);
    expect(last).not.toBe(first);
    expect(troubles).toEqual([]);
    // Without a slider the picture stands in, with all three.
    expect(String(data['image/png']).length).toBeGreaterThan(1000);
  });
});
