import { VERSION } from '../experiments/index.js';
import { GENERATOR } from '../random/index.js';
import type { ReplayedShow } from './replayShow.js';

/** A replayed show as JSON: how it was chosen, the window, its figures, and everything that happened in the show. */
export function replayJson(shown: ReplayedShow): string {
  const { scenario, seed, replication, worst, window, log, totals } = shown;
  const { name, spec, source } = scenario;
  const id = (module: number): string | null => spec.modules[module]?.id ?? null;
  const { longestStop, stopped, spills, ...counts } = totals;
  const result = {
    kind: 'lapwright-replay',
    format: 1,
    version: VERSION,
    scenario: { name, sha256: source.sha256 },
    seed,
    generator: GENERATOR,
    replication,
    // JSON has no NaN: null stands for a figure that no show has.
    chosen: worst ?? null,
    window_s: window,
    in_window: {
      ...counts,
      longest_stop: longestStop
        ? {
            module: id(longestStop.module),
            cause: longestStop.cause ?? null,
            from_s: longestStop.from,
            to_s: longestStop.to,
            open: longestStop.open,
          }
        : null,
      stopped: stopped.map(({ module, seconds }) => ({ module: id(module), seconds })),
      spills: spills.map(({ module, balls, first }) => ({ module: id(module), balls, first_s: first })),
    },
    log: log.map(({ time, kind, module, seconds, ...rest }) => ({
      time_s: time,
      kind,
      module: id(module),
      ...rest,
      ...(seconds !== undefined && { seconds }),
    })),
  };
  return `${JSON.stringify(result, null, 2)}\n`;
}
