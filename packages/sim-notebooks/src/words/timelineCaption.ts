import type { PlaceState, ReplayedShow, Scenario, Timeline, WindowTotals } from '@lapwright/sim-core';
import { formatSeconds, momentLabel, windowTotals } from '@lapwright/sim-core';

/** Places that are named; the others are only counted. */
const NAMED = 3;

/**
 * What a timeline shows: who was stopped longest, where balls fell and from when on.
 *
 * @param shown how many modules are in the picture
 */
export function timelineCaption(
  { scenario, log }: ReplayedShow,
  { window, episodes }: Timeline,
  shown: number,
): string {
  const { modules, show } = scenario.spec;
  const totals = windowTotals(log, window, show);
  const cut =
    shown === modules.length
      ? ''
      : shown === 0
        ? ` None of the ${modules.length} is drawn, because nothing happened at any.`
        : ` Only ${shown} of ${modules.length} are drawn: those where most happened.`;
  const merged = (window.to - window.from) / 900;
  const grain =
    merged >= 1 && shown > 0
      ? ` What changes within ${formatSeconds(merged)} is drawn as what lasted longest of it.`
      : '';
  const seams = (show.sessions ?? []).some(
    ({ fromSeconds }) => fromSeconds > window.from && fromSeconds < window.to,
  )
    ? ' Dashed and dotted lines: the show closes and opens again; the closed time, in which nothing moves, is left out.'
    : '';
  const held = longestIn('held_up', episodes, scenario);
  const out = longestIn('pulled', episodes, scenario);
  const also = [
    ...(held ? [` ${held.id} was held up longest, about ${held.lasted}.`] : []),
    ...(out ? [` ${out.id} was out of its place longest, about ${out.lasted}.`] : []),
  ].join('');
  return `${stopWords(totals, scenario)}${also} ${fallWords(totals, scenario)} Each line is a module, in the order in which balls pass.${cut}${grain}${seams}`;
}

/** The module that was longest in a state, and for how long, as far as the episodes tell. */
function longestIn(
  state: PlaceState,
  episodes: Timeline['episodes'],
  { spec }: Scenario,
): { readonly id: string; readonly lasted: string } | undefined {
  const seconds = new Map<number, number>();
  for (const { module, state: seen, from, to } of episodes) {
    if (seen === state) seconds.set(module, (seconds.get(module) ?? 0) + to - from);
  }
  const [most] = [...seconds].toSorted((a, b) => b[1] - a[1]);
  return most && { id: spec.modules[most[0]]?.id ?? '', lasted: formatSeconds(most[1]) };
}

function stopWords({ stopped, longestStop, stops }: WindowTotals, { spec }: Scenario): string {
  const [most] = stopped;
  if (most === undefined || longestStop === undefined) return 'Nothing was stopped.';
  const id = (module: number): string => spec.modules[module]?.id ?? '';
  const long = `${formatSeconds(longestStop.to - longestStop.from)} from ${momentLabel(spec.show, longestStop.from)} on`;
  if (stopped.length === 1 && stops <= 1) return `Only ${id(most.module)} was stopped, once: ${long}.`;
  const who =
    stopped.length === 1
      ? `Only ${id(most.module)} was stopped, ${formatSeconds(most.seconds)} in all`
      : `${stopped.length} modules were stopped at some time: ${id(most.module)} longest, ${formatSeconds(most.seconds)} in all`;
  const longest =
    longestStop.module === most.module
      ? `its longest stop took ${long}`
      : `the longest stop was that of ${id(longestStop.module)}, ${long}`;
  return `${who}; ${longest}.`;
}

function fallWords({ spilled, spills }: WindowTotals, { spec }: Scenario): string {
  if (spills.length === 0) return 'No basket ran over.';
  const [only] = spills;
  const count = `${spilled} ${spilled === 1 ? 'ball' : 'balls'} spilled`;
  if (only !== undefined && spills.length === 1)
    return `${count}, all at ${spec.modules[only.module]?.id}, from ${momentLabel(spec.show, only.first)} on.`;
  const named = spills
    .slice(0, NAMED)
    .map(
      ({ module, balls, first }) =>
        `${balls} at ${spec.modules[module]?.id} (from ${momentLabel(spec.show, first)} on)`,
    );
  const rest = spills.slice(NAMED);
  const others =
    rest.length === 0 ? '' : ` and ${rest.reduce((sum, { balls }) => sum + balls, 0)} at ${rest.length} more`;
  return `${count}: ${named.join(', ')}${others}.`;
}
