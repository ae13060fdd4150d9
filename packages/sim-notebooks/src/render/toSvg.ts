import type { ChartSpec } from '../charts/index.js';
import { CHART_CONFIG } from '../theme/index.js';
import { textWidth } from './textWidth.js';

/** What a text mark looks like to the text metrics of Vega. */
interface TextItem {
  readonly fontSize?: number;
  readonly text?: unknown;
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
  // Loaded when needed: the two take a fifth of a second.
  const [vega, vegaLite] = await Promise.all([import('vega'), import('vega-lite')]);
  // Exported by vega for this purpose, but missing from its types.
  const { textMetrics } = vega as unknown as { readonly textMetrics: TextMetrics };
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
  const svg = await view.toSVG();
  view.finalize();
  if (warnings.length > 0)
    throw new Error(`chart "${String(spec['description'])}": ${warnings.map(String).join('; ')}`);
  return svg;
}

/** Labels are texts or numbers; anything else takes no room. */
function asText(value: unknown): string {
  return typeof value === 'string' || typeof value === 'number' ? String(value) : '';
}
