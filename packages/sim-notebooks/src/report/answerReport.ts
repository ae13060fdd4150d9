import type { Answer } from '@lapwright/sim-core';
import { pictureChart } from '../charts/index.js';
import { toSvg } from '../render/index.js';
import { CAUTIONS } from '../words/index.js';
import { escapeHtml, htmlFigure, htmlPage, htmlTable, paragraphs, points } from './html.js';

/** What the report of an answer is made from. */
export interface AnswerReportInput {
  readonly answer: Answer;
  /** The command that gives the same answer again. */
  readonly command: string;
}

/**
 * The answer to a question as one HTML page: verdict, pictures, numbers, how sure, what to try next, cautions, and where
 * it came from. It needs nothing else. The same input gives the same text.
 *
 * @example
 * (await answerReport({ answer: exampleAnswer, command: 'lapwright compare a.yaml b.yaml' })).startsWith('<!doctype html>') // => true
 */
export async function answerReport(input: AnswerReportInput): Promise<string> {
  return htmlPage(input.answer.title, await answerBody(input));
}

/**
 * What stands on the page of an answer.
 *
 * @param sheets what comes before the last part, where the answer comes from @default nothing
 */
export async function answerBody(
  { answer, command }: AnswerReportInput,
  sheets: readonly string[] = [],
): Promise<string> {
  const { title, sentence, because, next, pictures, tables, sure } = answer;
  const drawn = await Promise.all(
    pictures.map(async (picture) => htmlFigure(picture, await toSvg(pictureChart(picture)))),
  );
  const body = [
    `<h1>${escapeHtml(title)}</h1>`,
    `<div class="lead">${paragraphs([sentence, ...because])}</div>`,
    next.length === 0 ? '' : `<div class="todo"><h2>To try next</h2>${points(next)}</div>`,
    ...drawn,
    ...tables.map(
      ({ title: head, head: columns, rows }, i) =>
        `<section id="table-${i + 1}"><h2>${escapeHtml(head)}</h2>${htmlTable(columns, rows, head)}</section>`,
    ),
    `<section id="trust"><h2>How sure this is</h2>${points(sure)}</section>`,
    `<section id="cautions"><h2>Before the public comes in</h2>${points(CAUTIONS)}</section>`,
    ...sheets,
    // On a sheet of its own, so that it is handed to no builder.
    provenance(answer, command, sheets.length > 0),
  ];
  return body.filter((part) => part !== '').join('\n');
}

function provenance(
  { scenarios, seed, generator, shows, version }: Answer,
  command: string,
  apart: boolean,
): string {
  const entries = [
    ...scenarios.flatMap(({ file, sha256, changes }): [string, string][] => [
      ['Scenario file', file],
      ['SHA-256 of the file', sha256],
      ...(changes.length === 0 ? [] : [['Changed by', changes.join(' ')] as [string, string]]),
    ]),
    ['Seed', String(seed)],
    ['Random numbers', generator],
    ['Shows simulated', String(shows)],
    ['Program', `lapwright ${version}`],
  ];
  const list = entries
    .map(([name = '', value = '']) => `<dt>${escapeHtml(name)}</dt><dd>${escapeHtml(value)}</dd>`)
    .join('');
  return `<section id="provenance"${apart ? ' style="break-before: page"' : ''}><h2>Where this comes from</h2><dl>${list}<dt>The same again</dt><dd><code>${escapeHtml(command)}</code></dd></dl></section>`;
}
