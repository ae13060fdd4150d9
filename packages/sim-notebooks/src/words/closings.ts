import type { RunResult } from '@lapwright/sim-core';

/** What the dashed lines of a chart over time mean, for captions; nothing in a show of one session. */
export function closingsNote({ scenario: { sessions } }: RunResult): string {
  return sessions.length > 1
    ? ' Dashed and dotted lines: the show closes and opens again; the closed time, in which nothing moves, is left out.'
    : '';
}
