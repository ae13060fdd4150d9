import { type Answer, answerText } from '@lapwright/sim-core';
import { pictureChart } from '../charts/index.js';
import type { Figure } from '../report/index.js';
import { inCellWords } from './inCellWords.js';
import { inText } from './inText.js';

/**
 * The answer to a question. `show(reply)` shows it.
 *
 * @example
 * new Reply(exampleAnswer).verdict // => 'undecided'
 */
export class Reply {
  /** All of it, as the command line writes it with `--json`. */
  readonly answer: Answer;
  /** In a few fixed words, such as "better" or "undecided". */
  readonly verdict: string;
  /** The verdict with its evidence. */
  readonly sentence: string;
  /** The pictures that `show(reply, ...)` knows, with their captions. */
  readonly figures: readonly Figure[];

  /** @param more pictures that only a notebook has */
  constructor(answer: Answer, more: readonly Figure[] = []) {
    this.answer = answer;
    this.verdict = answer.verdict;
    this.sentence = answer.sentence;
    this.figures = [
      ...answer.pictures.map((picture) => {
        const { id, title, caption } = picture;
        return { id, title, caption, spec: pictureChart(picture) };
      }),
      ...more,
    ];
    inText(this, () => this.text().trimEnd());
  }

  /** The answer as the command line prints it. */
  text(): string {
    return inCellWords(answerText(this.answer));
  }

  /** The same bytes as with `--json`. */
  json(): string {
    return `${JSON.stringify(this.answer, null, 2)}\n`;
  }
}
