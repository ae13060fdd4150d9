import { createHash } from 'node:crypto';
import type { View } from 'vega';
import type { ChartSpec } from '../charts/index.js';
import { CHART_CONFIG } from '../theme/index.js';
import { textWidth } from './textWidth.js';

/** What a text mark looks like to the text metrics of Vega. */
interface TextItem {
  readonly fontSize?: number;
  readonly text?: unknown;
}

/** What this file needs of vega that its types do not tell. */
interface VegaForSvg {
  readonly textMetrics: TextMetrics;
  /** Starts the numbering of gradients and clips, shared by all charts of a process, at 0 again. */
  readonly resetSVGDefIds: () => void;
}

interface TextMetrics {
  width: (item: TextItem, text?: unknown) => number;
}

/**
 * Draws a chart as SVG text. The same chart gives the same text, in any process.
 *
 * @throws Error when the specification cannot be compiled, or compiles with a warning
 * @example
 * const dot = { $schema: 'https://vega.github.io/schema/vega-lite/v6.json', description: 'a dot', data: { values: [{ x: 1 }] }, mark: 'point', encoding: { x: { field: 'x', type: 'quantitative' } } };
 * (await toSvg(dot)).startsWith('<svg') // => true
 */
export async function toSvg(spec: ChartSpec): Promise<string> {
  const [vega, vegaLite] = await loadVega();
  const { textMetrics, resetSVGDefIds } = vega as unknown as VegaForSvg;
  textMetrics.width = (item, text) => textWidth(asText(text ?? item.text), item.fontSize ?? 11);
  const warnings: unknown[] = [];
  const note = (...messages: unknown[]): unknown => warnings.push(...messages);
  const logger = {
    level: () => logger,
    error: (...messages: unknown[]) => (note(...messages), logger),
    warn: (...messages: unknown[]) => (note(...messages), logger),
    info: () => logger,
    debug: () => logger,
  };
  const compiled = vegaLite.compile({ ...spec, config: CHART_CONFIG } as never, { logger });
  const view = new vega.View(vega.parse(compiled.spec), { renderer: 'none', logger });
  const svg = withOwnIds(await drawAlone(view, resetSVGDefIds), spec);
  view.finalize();
  if (warnings.length > 0)
    throw new Error(`chart "${String(spec['description'])}": ${warnings.map(String).join('; ')}`);
  return svg;
}

/** Loaded when needed: the two take a fifth of a second. */
function loadVega(): Promise<[typeof import('vega'), typeof import('vega-lite')]> {
  return Promise.all([import('vega'), import('vega-lite')]);
}

/** Loads what draws while there is time, so that the first picture does not wait for it; a failure is told by who draws. */
export function prepareToDraw(): void {
  loadVega().catch(() => undefined);
}

/** Labels are texts or numbers; anything else takes no room. */
function asText(value: unknown): string {
  return typeof value === 'string' || typeof value === 'number' ? String(value) : '';
}

let lastDrawing: Promise<unknown> = Promise.resolve();

/** Draws when no other chart is being drawn, so that ids are numbered from 0 and the text is the same every time. */
function drawAlone(view: View, resetIds: () => void): Promise<string> {
  const drawing = lastDrawing.then(() => {
    resetIds();
    return view.toSVG();
  });
  // A chart that fails must not stop the next one.
  lastDrawing = drawing.catch(() => undefined);
  return drawing;
}

/** Gives gradients and clips names of the chart's own, so that several charts can stand in one page. */
function withOwnIds(svg: string, spec: ChartSpec): string {
  const own = createHash('sha256').update(JSON.stringify(spec)).digest('hex').slice(0, 8);
  return svg.replaceAll(/(\bid="|url\(#|href="#)((?:gradient_|clip)\w*)/g, `$1c${own}-$2`);
}
