import type { ModuleEstimates, RunResult, SpareEstimates } from '../experiments/index.js';
import type { LoopSpec } from '../model/spec/index.js';
import { briefPhrase, estimatePhrase, KINDS } from './phrase.js';

/** Out of the loop for a larger share of the time than this calls for advice. */
const NOTABLE = 0.02;

/**
 * The module that is out of the loop most.
 *
 * @returns undefined when none was pulled
 * @example
 * mostPulled(exampleResult) // => undefined
 */
export function mostPulled({ modules }: RunResult): ModuleEstimates | undefined {
  const [most] = modules.toSorted((a, b) => (b.pulled_share.mean ?? 0) - (a.pulled_share.mean ?? 0));
  return most && (most.pulled_share.mean ?? 0) > 0 ? most : undefined;
}

/** Whether a spare stops less often than a module, each while it is in the loop. */
export type Verdict = 'better' | 'worse' | 'open';

/**
 * Compares stops per hour in the loop by their intervals: a spare does better when its interval ends below where the
 * module's begins.
 *
 * @example
 * verdict(exampleResult.modules[0], exampleResult.modules[1]) // => 'open'
 */
export function verdict(
  spare: Pick<SpareEstimates, 'stops_per_hour_in_loop'>,
  module: Pick<ModuleEstimates, 'stops_per_hour_in_loop'>,
): Verdict {
  const { low, high } = spare.stops_per_hour_in_loop;
  const { low: ownLow, high: ownHigh } = module.stops_per_hour_in_loop;
  if (high !== null && ownLow !== null && high < ownLow) return 'better';
  if (low !== null && ownHigh !== null && low > ownHigh) return 'worse';
  return 'open';
}

/** Advice on the module that is out most: what stood in for it, and whether that did better. */
export function pullAdvice(result: RunResult, spec: LoopSpec): string[] {
  const most = mostPulled(result);
  if (most === undefined || (most.pulled_share.mean ?? 0) < NOTABLE) return [];
  const start = `${most.id} is out of the loop ${estimatePhrase(most.pulled_share, KINDS.share)} of the time, pulled ${briefPhrase(most.pulls_per_show, KINDS.timesPerShow)}`;
  const pull = spec.modules.find(({ id }) => id === most.id)?.pull;
  const [spare] = (pull?.spares ?? [])
    .flatMap((s) => result.spares[s] ?? [])
    .toSorted((a, b) => (b.in_use_share.mean ?? 0) - (a.in_use_share.mean ?? 0));
  if (spare === undefined || (spare.in_use_share.mean ?? 0) === 0)
    return [
      `${start}, and a plain chute stands in for it. Mend what stops it before the show, or bring a spare.`,
    ];
  const rate = (one: ModuleEstimates | SpareEstimates): string =>
    briefPhrase(one.stops_per_hour_in_loop, KINDS.stopsPerHour);
  const compared = `While in the loop it makes ${rate(most)}, its spare ${spare.id} ${rate(spare)}`;
  return [`${start}. ${compared}: ${WORDS[verdict(spare, most)](most.id, spare.id)}`];
}

const WORDS: Readonly<Record<Verdict, (module: string, spare: string) => string>> = {
  better: (_, spare) => `the spare does better; a run with ${spare} in its place from the start is worth it.`,
  worse: (module) => `the spare does worse; mend what stops ${module}, or wait longer before you pull it.`,
  open: () => 'which of them does better does not show in so few stops; run more shows.',
};
