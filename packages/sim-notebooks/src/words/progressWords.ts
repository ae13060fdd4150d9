import { formatSeconds } from '@lapwright/sim-core';

/**
 * How far a simulation is, with the time left.
 *
 * @example
 * progressWords(25, 100, 10) // => '25 of 100 shows simulated, about 30 s left (to stop: the square button above)'
 */
export function progressWords(done: number, asked: number, elapsedSeconds: number): string {
  const left =
    done === 0
      ? 'time left not known yet'
      : `about ${formatSeconds(Math.ceil((elapsedSeconds / done) * (asked - done)))} left`;
  return `${done} of ${asked} shows simulated, ${left} (to stop: the square button above)`;
}

/** What stands in place of the progress when it is over. */
export function finishedWords(done: number): string {
  if (done === 0) return 'All shows were known already: nothing was simulated.';
  return `${done} ${done === 1 ? 'show' : 'shows'} simulated.`;
}

/** What stands there when it was stopped. */
export function stoppedWords(done: number, asked: number): string {
  const kept = done === 0 ? 'no show was finished' : `${done} of ${asked} shows were finished`;
  return `Stopped: ${kept}.`;
}
