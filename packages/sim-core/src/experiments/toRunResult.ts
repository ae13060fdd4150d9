import { GENERATOR } from '../random/index.js';
import type { Scenario } from '../scenario/index.js';
import type { RunResult } from './runResult.js';
import type { RunSummary } from './runSummary.js';
import { VERSION } from './version.js';

/**
 * The result of a run with everything needed to get it again: scenario, seed, generator, version, replications.
 *
 * Nothing in it depends on the number of workers, the machine or the day.
 *
 * @param options.asked replications asked for
 * @param options.confidence of all intervals @default 0.95
 * @example
 * const scenario = parseScenario('{ name: bench, show: { lasts: 1 h }, feed: { steady: 1 bps }, modules: { lift: { basket: 150, cycle: 0.9 s, travel: 5 s } } }');
 * const { summary } = await replicate(scenario.spec, { seed: 1, replications: 2 });
 * toRunResult(scenario, summary, { seed: 1, asked: 2 }).partial // => false
 */
export function toRunResult(
  scenario: Scenario,
  summary: RunSummary,
  options: { readonly seed: number; readonly asked: number; readonly confidence?: number },
): RunResult {
  const { seed, asked, confidence = 0.95 } = options;
  const { spec, name, source } = scenario;
  const { supply, show } = spec;
  return {
    kind: 'lapwright-run',
    format: 1,
    version: VERSION,
    scenario: {
      name,
      sha256: source.sha256,
      shape: supply.kind === 'charge' ? 'loop' : 'chain',
      charge_balls: supply.kind === 'charge' ? supply.placed.reduce((sum, balls) => sum + balls, 0) : 0,
      opens_s: show.opensAtSeconds ?? null,
      sessions: (show.sessions ?? [{ fromSeconds: 0, clockSeconds: 0 }]).map(
        ({ fromSeconds, clockSeconds }) => ({ from_s: fromSeconds, clock_s: clockSeconds }),
      ),
    },
    seed,
    generator: GENERATOR,
    replications: summary.replications,
    replications_asked: asked,
    partial: summary.replications < asked,
    horizon_s: show.seconds,
    warm_up_s: show.warmUpSeconds,
    ...summary.estimates(confidence),
  };
}
