import type { ShowSpec } from '../../packages/sim-core/src/model/spec/index.js';
import { ticks } from './table.js';

/*
 * MODEL.md, "The show": public time against the clock on the wall.
 */

/**
 * Public time at which something is ready that takes so long by the clock on the wall; what is ready while closed is ready
 * at the next opening. All in ticks.
 *
 * @returns undefined when it is ready after the last session
 */
export function readyAt(show: ShowSpec, now: number, takes: number): number | undefined {
  const sessions = (show.sessions ?? [{ fromSeconds: 0, clockSeconds: 0 }]).map(
    ({ fromSeconds, clockSeconds }, i, all) => ({
      from: ticks(fromSeconds),
      to: ticks(all[i + 1]?.fromSeconds ?? show.seconds),
      opens: ticks(clockSeconds),
    }),
  );
  // An instant at the border of two sessions is the end of the earlier one.
  const session = sessions.find(({ from, to }) => now >= from && now <= to);
  if (!session) return undefined;
  const ready = session.opens + (now - session.from) + takes;
  for (const { from, to, opens } of sessions) {
    if (to < now) continue;
    if (ready <= opens) return Math.max(now, from);
    if (ready <= opens + (to - from)) return from + (ready - opens);
  }
  return undefined;
}
