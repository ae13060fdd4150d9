/**
 * A question was stopped from the keyboard before it had its answer.
 *
 * @example
 * new Stopped('Stopped: 37 of 100 shows were finished.').name // => 'Stopped'
 */
export class Stopped extends Error {
  override readonly name = 'Stopped';
}
