import { estimatePhrase, KINDS, mostPulled, type RunResult, shows } from '@lapwright/sim-core';

/** Which modules are taken out of the loop. */
export function pullsCaption(result: RunResult): string {
  const most = mostPulled(result);
  if (most === undefined) return `No module was taken out of the loop in ${shows(result.replications)}.`;
  return `Modules out of the loop at each time of the show, on average. They are taken out ${estimatePhrase(result.pulls_per_show, KINDS.timesPerShow)}; ${most.id} is out most, ${estimatePhrase(most.pulled_share, KINDS.share)} of the time. Stops per hour count the hours in the loop only, so that a module and its spare can be compared.`;
}
