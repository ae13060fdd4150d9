import {
  formatSeconds,
  GENERATOR,
  type ReplayedShow,
  summarySentence,
  type Timeline,
  VERSION,
  windowLabel,
  worstSentence,
} from '@lapwright/sim-core';
import { timelineChart } from '../charts/index.js';
import { toSvg } from '../render/index.js';
import { episodeRows, fallRows, onAxis, shownModules, timelineAxis } from '../rows/index.js';
import { CAUTIONS, timelineCaption } from '../words/index.js';
import type { Figure } from './figure.js';
import { escapeHtml, htmlFigure, htmlPage, htmlTable, paragraphs, points } from './html.js';

/** What the report of a replayed show is made from. */
export interface ReplayReportInput {
  readonly shown: ReplayedShow;
  /** The command that replays the same window of the same show. */
  readonly command: string;
}

/** A story longer than this is for a table of its own, not for a page. */
const MOST_LINES = 2000;

/**
 * The report of a replayed show as one HTML page: what happened in a few sentences, the timeline, the story line by line,
 * cautions, and where it came from. It needs nothing else: no script, no file beside it, no network. The same input gives
 * the same text.
 *
 * @example
 * const shown = replayShow(exampleScenario, { seed: 1, replication: 0, pictures: true });
 * (await replayReport({ shown, command: 'lapwright replay example.yaml' })).startsWith('<!doctype html>') // => true
 */
export async function replayReport({ shown, command }: ReplayReportInput): Promise<string> {
  const { scenario, worst, window, totals } = shown;
  const { name, spec } = scenario;
  const when = windowLabel(spec.show, window);
  const drawn = await Promise.all(
    timelineFigures(shown).map(async (figure) =>
      htmlFigure(figure, figure.spec && (await toSvg(figure.spec))),
    ),
  );
  const lead = [summarySentence(totals, window, spec), ...(worst ? [worstSentence(worst)] : [])];
  const body = [
    `<h1>${escapeHtml(`${name}: ${when}`)}</h1>`,
    `<p class="note">${escapeHtml(`Show ${shown.replication} of seed ${shown.seed}, ${formatSeconds(spec.show.seconds)}, ${spec.modules.length} modules.`)}</p>`,
    `<div class="lead">${paragraphs(lead)}</div>`,
    ...drawn,
    `<section id="story"><h2>What happened</h2>${story(shown)}</section>`,
    `<section id="trust"><h2>How far to trust this</h2>${points(TRUST)}</section>`,
    `<section id="cautions"><h2>Before the public comes in</h2>${points(CAUTIONS)}</section>`,
    provenance(shown, command),
  ];
  return htmlPage(`${name}: show ${shown.replication}, ${when}`, body.join('\n'));
}

/** The timeline of the window, and of the whole show if that is longer. */
export function timelineFigures(shown: ReplayedShow): Figure[] {
  return shown.timelines.map((timeline, i) =>
    i === 0
      ? timelineFigure(shown, timeline, {
          id: 'timeline',
          title: `Module by module, ${windowLabel(shown.scenario.spec.show, timeline.window)}`,
        })
      : timelineFigure(shown, timeline, { id: 'whole-show', title: 'The whole show' }),
  );
}

function timelineFigure(
  shown: ReplayedShow,
  timeline: Timeline,
  { id, title }: { readonly id: string; readonly title: string },
): Figure {
  const { scenario, log, window } = shown;
  const { spec } = scenario;
  const modules = shownModules(timeline, log, spec);
  const caption = timelineCaption(shown, timeline, modules.length);
  if (modules.length === 0) return { id, title, caption };
  const axis = timelineAxis(spec, timeline.window);
  const isPart = window.from > timeline.window.from || window.to < timeline.window.to;
  return {
    id,
    title,
    caption: isPart ? `${caption} Between the two upright lines lies what is told above.` : caption,
    spec: timelineChart(
      episodeRows(timeline, modules, spec, axis),
      fallRows(log, timeline.window, modules, spec, axis),
      {
        description: caption,
        axis,
        modules: modules.flatMap((m) => spec.modules[m]?.id ?? []),
        ...(isPart && { told: [onAxis(axis, window.from), onAxis(axis, window.to)] as const }),
      },
    ),
  };
}

function story({ story: lines, totals, window, scenario }: ReplayedShow): string {
  if (lines.length === 0)
    return paragraphs([summarySentence(totals, window, scenario.spec), 'There is nothing else to tell.']);
  const rows = lines.slice(0, MOST_LINES).map(({ clock, text }) => [clock, text]);
  const rest =
    lines.length > MOST_LINES
      ? paragraphs([
          `${lines.length - MOST_LINES} more lines are left out; lapwright replay --csv writes everything.`,
        ])
      : '';
  return `<div class="story">${htmlTable(['when', 'what'], rows, 'What happened')}</div>${rest}`;
}

const TRUST = [
  'This is one show with one roll of the dice, chosen to be looked at; it says what can happen and how one thing leads to another, not how often. How often is in the report of a run of many shows.',
  'The same scenario file, seed and number give the same show, to the last ball. After a change in the file each module keeps its luck, but the show may go another way.',
  'What is not simulated: the public, tired minders, modules that get worse during the day, two modules failing for one reason.',
];

function provenance({ scenario, seed, replication, worst }: ReplayedShow, command: string): string {
  const entries: [string, string][] = [
    ['Scenario file', scenario.source.file],
    ['SHA-256 of the file', scenario.source.sha256],
    ['Seed', String(seed)],
    ['Random numbers', GENERATOR],
    ['Number of the show', `${replication}${worst ? `, the worst of ${worst.shows}` : ''}`],
    ['Program', `lapwright ${VERSION}`],
  ];
  const list = entries
    .map(([term, value]) => `<dt>${escapeHtml(term)}</dt><dd>${escapeHtml(value)}</dd>`)
    .join('');
  return `<section id="provenance"><h2>Where this comes from</h2><dl>${list}<dt>The same again</dt><dd><code>${escapeHtml(command)}</code></dd></dl></section>`;
}
