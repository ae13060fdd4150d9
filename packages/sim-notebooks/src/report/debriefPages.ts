import type { Answer, BuilderPage } from '@lapwright/sim-core';
import { answerBody } from './answerReport.js';
import { escapeHtml, htmlPage, paragraphs } from './html.js';

/** What the pages are made from. */
export interface DebriefPagesInput {
  readonly answer: Answer;
  /** The pages of the builders that are wanted. */
  readonly pages: readonly BuilderPage[];
  /** Whether the page of the club comes first. */
  readonly club: boolean;
  /** The command that gives the same pages again. */
  readonly command: string;
}

/**
 * A show told afterwards: the page of the club, and one page for each builder, each on a sheet of its own when printed.
 *
 * @example
 * const pages = [{ builder: 'Perrin', sentences: ['Your module was not seen to stop.'], modules: [] }];
 * (await debriefPages({ answer: exampleAnswer, pages, club: false, command: 'lapwright debrief a.csv' })).includes('For Perrin') // => true
 */
export async function debriefPages({ answer, pages, club, command }: DebriefPagesInput): Promise<string> {
  const sheets = pages.map(sheet);
  const body = club
    ? await answerBody({ answer, command }, sheets)
    : [`<h1>${escapeHtml(answer.title)}</h1>`, ...sheets].join('\n');
  return htmlPage(answer.title, body);
}

function sheet({ builder, sentences, modules }: BuilderPage): string {
  const parts = modules.map(
    ({ module, sentences: told }) => `<h3>${escapeHtml(module)}</h3>\n${paragraphs(told)}`,
  );
  return `<section style="break-before: page"><h2>For ${escapeHtml(builder ?? 'modules whose builder is not known')}</h2>
${paragraphs(sentences)}
${parts.join('\n')}
<p class="note">Small numbers: a module that did well today may have had luck, and one that did badly none. Take the intervals seriously, and each other kindly.</p>
</section>`;
}
