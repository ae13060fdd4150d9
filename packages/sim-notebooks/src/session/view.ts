import { InputError, roughCut, summarySentence, suggest, worstSentence } from '@lapwright/sim-core';
import { floodClock } from '../charts/index.js';
import { escapeHtml, type Figure, paragraphs, points } from '../report/index.js';
import { floodRows } from '../rows/index.js';
import { floodCaption } from '../words/index.js';
import { inCellWords } from './inCellWords.js';
import { Loop } from './loop.js';
import { Reply } from './reply.js';
import { Run } from './run.js';
import { SideBySide } from './sideBySide.js';
import { Story } from './story.js';

/** Anything with pictures. */
export type Showable = Loop | Run | Reply | Story | SideBySide;

/** What of a thing is shown below the cell. */
export interface View {
  /** Words above the pictures, as HTML and as text. */
  readonly words?: { readonly html: string; readonly text: string };
  readonly figures: readonly Figure[];
}

/** Most modules in the flood clock. */
const MOST = 20;
/** Lines of a story that fit below a cell. */
const STORY_LINES = 12;

/** What is shown of a thing when no picture is named: what it says, and the picture to look at first. */
export function firstView(thing: Showable): View {
  if (thing instanceof Run) return runView(thing);
  if (thing instanceof Reply) return replyView(thing);
  if (thing instanceof Story) return storyView(thing);
  if (thing instanceof SideBySide) return { figures: thing.figures.slice(0, 1) };
  return { figures: figuresOf(thing) };
}

/**
 * Just one picture, or all of them; of an answer also the verdict alone, in words.
 *
 * @throws InputError when there is none of that name
 */
export function pictureView(thing: Showable, id: string): View {
  const all = figuresOf(thing);
  if (id === 'all') return { ...firstView(thing), figures: all };
  if (id === 'verdict' && thing instanceof Reply) return { words: verdictWords(thing), figures: [] };
  const figure = all.find((one) => one.id === id);
  if (figure === undefined) {
    throw new InputError([
      {
        code: 'unknown_name',
        path: '',
        rule: `there is no picture ${JSON.stringify(id)} here`,
        hint: suggest(id, [
          ...all.map((one) => one.id),
          'all',
          ...(thing instanceof Reply ? ['verdict'] : []),
        ]),
      },
    ]);
  }
  return { figures: [figure] };
}

/** All pictures of a thing. */
export function figuresOf(thing: Showable): readonly Figure[] {
  return thing instanceof Loop ? [floodFigure(thing)] : thing.figures;
}

function floodFigure({ scenario }: Loop): Figure {
  const rough = roughCut(scenario.spec);
  const rows = floodRows(rough, MOST);
  const caption = floodCaption(rows, rough);
  return {
    id: 'flood-clock',
    title: 'How soon a basket floods',
    caption,
    ...(rows.length > 0 && { spec: floodClock(rows, { description: caption }) }),
  };
}

function runView({ loop, result, headline, advice, figures }: Run): View {
  const { replications, replications_asked: asked, partial, seed } = result;
  const of = partial ? `only ${replications} of ${asked} shows` : `${replications} shows`;
  const title = `${loop.name}: ${of}, seed ${seed}`;
  return {
    words: {
      html: `<strong>${escapeHtml(title)}</strong>${paragraphs(headline)}<strong>What to do</strong>${points(advice)}`,
      text: [title, ...headline, 'What to do:', ...advice.map((one) => `- ${one}`)].join('\n\n'),
    },
    figures: figures.filter(({ id }) => id === 'risk'),
  };
}

function verdictWords({ answer: { sentence, because } }: Reply): NonNullable<View['words']> {
  const said = [sentence, ...because].map(inCellWords);
  return { html: paragraphs(said), text: said.join('\n\n') };
}

function replyView({ answer, figures }: Reply): View {
  const { title, sentence, because, sure, next } = answer;
  const lists = [
    ['How sure', sure.map(inCellWords)],
    ['To try next', next.map(inCellWords)],
  ] as const;
  const given = lists.filter(([, items]) => items.length > 0);
  return {
    words: {
      html: [
        `<strong>${escapeHtml(title)}</strong>`,
        paragraphs([sentence, ...because].map(inCellWords)),
        ...given.map(([head, items]) => `<strong>${head}</strong>${points(items)}`),
      ].join(''),
      text: [
        title,
        ...[sentence, ...because].map(inCellWords),
        ...given.map(([head, items]) => [`${head}:`, ...items.map((one) => `- ${one}`)].join('\n')),
      ].join('\n\n'),
    },
    figures,
  };
}

function storyView({ shown, figures, lines, loop }: Story): View {
  const { worst, totals, window, scenario } = shown;
  const lead = [summarySentence(totals, window, scenario.spec), ...(worst ? [worstSentence(worst)] : [])];
  const title = `${loop.name}: show ${shown.replication}`;
  const told = lines.slice(0, STORY_LINES).map(({ clock, text }) => `${clock}  ${text}`);
  const rest =
    lines.length > STORY_LINES
      ? [`${lines.length - STORY_LINES} more lines: table(story) shows all of them.`]
      : [];
  return {
    words: {
      html: `<strong>${escapeHtml(title)}</strong>${paragraphs(lead)}${points([...told, ...rest])}`,
      text: [title, ...lead, [...told, ...rest].join('\n')].join('\n\n'),
    },
    figures: figures.slice(0, 1),
  };
}
