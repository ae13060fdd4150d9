import { lastingOutput } from './connection.js';

/** Milliseconds between two drawings: more would flood the connection to the browser. */
const BETWEEN = 100;

/** A bar below the cell that fills up, with words beside it. Nothing where there is no notebook. */
export class ProgressBar {
  private readonly write = lastingOutput();
  private readonly words: (done: number, asked: number, elapsedSeconds: number) => string;
  private readonly started = performance.now();
  private drawn = -Infinity;

  constructor(words: (done: number, asked: number, elapsedSeconds: number) => string) {
    this.words = words;
  }

  show(done: number, asked: number): void {
    const now = performance.now();
    if (now - this.drawn < BETWEEN) return;
    this.drawn = now;
    const text = this.words(done, asked, (now - this.started) / 1000);
    this.write?.({
      'text/html': `<progress value="${done}" max="${Math.max(1, asked)}"></progress> ${text}`,
      'text/plain': text,
    });
  }

  /** Leaves these words in place of the bar. */
  finish(text: string): void {
    this.write?.({ 'text/html': `<small>${text}</small>`, 'text/plain': text });
  }
}
