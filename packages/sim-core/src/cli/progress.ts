import { formatSeconds } from '../units/index.js';

/**
 * The progress line of a long run: how much is done and how much time is left. Written over itself on a terminal, not at
 * all elsewhere.
 */
export class ProgressLine {
  private readonly stream: NodeJS.WriteStream;
  private readonly started = performance.now();
  private lastShown = -Infinity;

  constructor(stream: NodeJS.WriteStream) {
    this.stream = stream;
  }

  show(done: number, asked: number): void {
    const now = performance.now();
    if (!this.stream.isTTY || (now - this.lastShown < 100 && done < asked)) return;
    this.lastShown = now;
    this.stream.write(`\r\u001B[K${progressText(done, asked, (now - this.started) / 1000)}`);
  }

  /** Takes the line away. */
  clear(): void {
    if (this.stream.isTTY) this.stream.write('\r\u001B[K');
  }
}

/**
 * The text of a progress line.
 *
 * @example
 * progressText(25, 100, 10) // => '25 of 100 shows simulated, about 30 s left (Ctrl-C stops and keeps them)'
 */
export function progressText(done: number, asked: number, elapsedSeconds: number): string {
  const left =
    done === 0
      ? 'time left not known yet'
      : `about ${formatSeconds(Math.ceil((elapsedSeconds / done) * (asked - done)))} left`;
  return `${done} of ${asked} shows simulated, ${left} (Ctrl-C stops and keeps them)`;
}
