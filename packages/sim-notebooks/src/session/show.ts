import { type ChartSpec } from '../charts/index.js';
import { imageBundle, liveBundle, output } from '../display/index.js';
import { toSvg } from '../render/index.js';
import { escapeHtml, type Figure } from '../report/index.js';
import { CHART_CONFIG } from '../theme/index.js';
import { outputTable } from './outputTable.js';
import { plainly } from './plainly.js';
import { firstView, pictureView, type Showable } from './view.js';

/**
 * Names of pictures, spelled out so that a cell completes them: those of runs first, then those of answers, replays and
 * loops. Which of them a thing has depends on what it is about.
 */
export type PictureName =
  | 'risk'
  | 'spills'
  | 'levels'
  | 'loop-time'
  | 'throughput'
  | 'places'
  | 'counted'
  | 'starvation'
  | 'stops'
  | 'crew'
  | 'moving'
  | 'held-up'
  | 'pulls'
  | 'topped-up'
  | 'side-by-side'
  | 'differences'
  | 'pairs'
  | 'gains'
  | 'timeline'
  | 'whole-show'
  | 'flood-clock'
  | 'all'
  | 'verdict'
  | (string & {});

/** How something is shown. */
export interface ShowOptions {
  /**
   * Pictures that can be pointed at and read, where Vega-Lite is understood (JupyterLab, Notebook 7, editors); the same
   * pictures as images elsewhere. @default false
   */
  readonly live?: boolean;
}

/**
 * Shows something below the cell: of a run its headline and where baskets run over, of an answer the verdict and its
 * pictures, of a replay the story and its timeline, of a loop how soon its baskets flood. Write `await` before it.
 *
 * @param what from `run`, `replay`, `load` or a question; a chart of your own works too
 * @param picture one picture by its name, such as `show(run, 'levels')`, or `'all'`; of an answer also
 *   `'verdict'`: that alone, in words
 * @throws InputError when there is no picture of that name; the message tells those there are
 * @example
 * await show(await run('scenarios/bench-one.yaml', { replications: 2 }), 'crew') // => undefined
 */
export function show(
  what: Showable | ChartSpec | Promise<Showable>,
  picture?: PictureName | ShowOptions,
  options: ShowOptions = {},
): Promise<void> {
  const [name, { live = false }] =
    typeof picture === 'string' ? [picture, options] : [undefined, picture ?? options];
  return plainly(async () => {
    const thing = await what;
    const view = isOwnChart(thing)
      ? { figures: [ownChart(thing, live)] }
      : name === undefined
        ? firstView(thing)
        : pictureView(thing, name);
    if (view.words) output({ 'text/html': view.words.html, 'text/plain': view.words.text });
    for (const figure of view.figures) await showFigure(figure, live);
  });
}

function isOwnChart(thing: Showable | ChartSpec): thing is ChartSpec {
  return 'mark' in thing || 'layer' in thing || '$schema' in thing;
}

/** A chart somebody wrote in a cell. Its title stands above an image; a live chart draws it itself. */
function ownChart(spec: ChartSpec, live: boolean): Figure {
  const { description: said, title, ...rest } = spec;
  const untitled = !live && typeof title === 'string';
  return {
    id: 'own',
    title: typeof title === 'string' ? title : 'Chart',
    caption: typeof said === 'string' ? said : '',
    spec: untitled ? { ...rest, description: said } : spec,
  };
}

async function showFigure({ title, caption, spec, tables = [] }: Figure, live: boolean): Promise<void> {
  const words = {
    title,
    caption,
    titleHtml: escapeHtml(title),
    captionHtml: escapeHtml(caption),
  };
  if (spec === undefined) {
    output({
      'text/html': `<strong>${words.titleHtml}</strong><br>${words.captionHtml}`,
      'text/plain': `${title}\n${caption}`,
    });
  } else {
    const drawn = { ...words, svg: await toSvg(spec) };
    output(live ? await liveBundle(spec, CHART_CONFIG, drawn) : imageBundle(drawn));
  }
  for (const { label, head, rows } of tables) outputTable(label, head, rows);
}
