import type { MediaBundle } from './connection.js';

/** A drawn chart with its words, safe for HTML already where they say so. */
export interface DrawnChart {
  readonly titleHtml: string;
  readonly captionHtml: string;
  readonly title: string;
  readonly caption: string;
  readonly svg: string;
}

/**
 * A chart as an image within HTML: the one form that every viewer of notebooks draws, trusted or not, without a network. The
 * picture brings its own white paper, so that it reads on a dark page too.
 */
export function imageBundle({ titleHtml, captionHtml, title, caption, svg }: DrawnChart): MediaBundle {
  const { width, height } = sizeOf(svg);
  const data = Buffer.from(svg).toString('base64');
  return {
    'text/html': `<figure style="margin:0 0 1em"><strong>${titleHtml}</strong><br><img alt="${captionHtml}" width="${width}" height="${height}" style="max-width:100%;height:auto;background:#fff" src="data:image/svg+xml;base64,${data}"><figcaption style="margin-top:.4em">${captionHtml}</figcaption></figure>`,
    'text/plain': `${title}\n${caption}`,
  };
}

/** How much larger than on paper a picture is drawn for screens with fine dots. */
const ZOOM = 1.5;

/**
 * A chart in three forms: one that can be pointed at and read where Vega-Lite 5 is understood, an image elsewhere, words
 * where there are none.
 */
export async function liveBundle(
  spec: Readonly<Record<string, unknown>>,
  config: Readonly<Record<string, unknown>>,
  { title, caption, svg }: DrawnChart,
): Promise<MediaBundle> {
  const { Resvg } = await import('@resvg/resvg-js');
  const drawing = new Resvg(svg, { fitTo: { mode: 'zoom', value: ZOOM }, background: 'white' });
  return {
    'application/vnd.vegalite.v5+json': {
      ...spec,
      $schema: 'https://vega.github.io/schema/vega-lite/v5.json',
      config,
    },
    'image/png': drawing.render().asPng().toString('base64'),
    'text/plain': `${title}\n${caption}`,
  };
}

function sizeOf(svg: string): { readonly width: string; readonly height: string } {
  const [, width = '', height = ''] = /<svg[^>]*? width="([\d.]+)"[^>]*? height="([\d.]+)"/.exec(svg) ?? [];
  return { width, height };
}
