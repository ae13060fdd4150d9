import type { RunResult } from '../experiments/index.js';
import { replicationsUntilRare } from '../statistics/index.js';

/**
 * Why some figures of a run have no interval although there were several shows; undefined where none lacks one.
 *
 * @example
 * alikeReason(exampleResult)?.startsWith('"No interval"') // => true
 */
export function alikeReason(result: RunResult): string | undefined {
  const { confidence } = result.throughput_bps;
  const needed = replicationsUntilRare(confidence);
  if (result.replications < 2 || result.replications >= needed || !isTooAlike(result)) return undefined;
  return `"No interval" stands where all ${result.replications} shows came out alike: of fewer than ${needed} that says too little of how others would.`;
}

/** Whether any estimate in it has a mean over shows and no interval. */
function isTooAlike(part: unknown): boolean {
  if (part === null || typeof part !== 'object') return false;
  if ('mean' in part && 'low' in part && 'high' in part && 'replications' in part)
    return part.mean !== null && part.low === null && part.high === null && Number(part.replications) > 1;
  return Object.values(part).some(isTooAlike);
}
