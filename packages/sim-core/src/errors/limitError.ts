/**
 * What was asked for is more than one replication can hold: events, balls or laps without end. The scenario is in order
 * as far as it can be read, but would take days or all of the memory.
 *
 * @example
 * new LimitError('more than 10 balls at once').message // => 'more than 10 balls at once'
 */
export class LimitError extends Error {
  override readonly name = 'LimitError';
}
