import { type ReplayedShow, replayText } from '@lapwright/sim-core';
import { type Figure, timelineFigures } from '../report/index.js';
import { inText } from './inText.js';
import type { Loop } from './loop.js';

/**
 * One show, told line by line. `show(story)` shows it.
 *
 * @example
 * (await replay('scenarios/chain-of-five.yaml', { replication: 0 })).replication // => 0
 */
export class Story {
  readonly loop: Loop;
  /** Number of the show, from 0: with the same seed `replay(loop, { replication })` tells it again. */
  readonly replication: number;
  /** What happened, in the order in which it did. */
  readonly lines: readonly { readonly clock: string; readonly text: string }[];
  /** The show with everything that happened in it. */
  readonly shown: ReplayedShow;
  /** The pictures that `show(story, ...)` knows, with their captions. */
  readonly figures: readonly Figure[];

  constructor(loop: Loop, shown: ReplayedShow) {
    this.loop = loop;
    this.shown = shown;
    this.replication = shown.replication;
    this.lines = shown.story.map(({ clock, text }) => ({ clock, text }));
    this.figures = timelineFigures(shown);
    inText(this, () => this.text().trimEnd());
  }

  /** The story as the command line prints it. */
  text(): string {
    return replayText(this.shown, { story: true });
  }
}
