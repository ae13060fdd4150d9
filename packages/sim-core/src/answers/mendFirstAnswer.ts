import { listing } from '../findings/index.js';
import type { MendFirst, MendGain } from '../studies/index.js';
import type { AnswerParts, AnswerTable } from './answer.js';
import { alikeNotes } from './alikeWords.js';
import { measureWords } from './measureWords.js';
import type { IntervalsPicture } from './picture.js';

/** Lines of the table and the picture. */
const MOST = 12;

/**
 * Which modules to mend first, in words, figures and a picture.
 *
 * @param name of the scenario
 * @example
 * const study = new Study({ seed: 1, source: showsHere() });
 * mendFirstAnswer('Example', await mendFirst(study, exampleLoop, { replications: 3 })).question // => 'mend-first'
 */
export function mendFirstAnswer(name: string, ranking: MendFirst): AnswerParts {
  const kept = ranking.modules.filter(({ dropped_after: dropped }) => dropped === null);
  const first = firstOf(kept, ranking.places);
  return {
    question: 'mend-first',
    title: `${name}: what to mend first`,
    verdict: kept.length === 0 ? 'nothing stops' : first.length === 0 ? 'no single module' : 'mend',
    sentence: sentence(ranking, kept, first),
    because: because(ranking, kept, first),
    pictures: pictures(ranking, kept),
    tables: kept.length === 0 ? [] : [gainsTable(ranking, kept)],
    sure: sure(ranking, kept),
    next:
      first.length === 0
        ? []
        : [
            'No mending makes a module run for ever: see with compare, and --set on its stops, what rarer stops would bring.',
          ],
    details: { ...ranking, first: first.map(({ id }) => id) },
  };
}

/** Those to be named: whose gain is for sure above nothing. */
function firstOf(kept: readonly MendGain[], places: number): MendGain[] {
  return kept.slice(0, places).filter(({ gain }) => (gain.low ?? 0) > 0);
}

function sentence(
  { on, now, places, replications }: MendFirst,
  kept: readonly MendGain[],
  first: readonly MendGain[],
): string {
  const words = measureWords(on);
  if (kept.length === 0) return 'No module of this loop ever stops.';
  const [best] = first;
  if (best === undefined)
    return now.mean === null
      ? `There was nothing to measure of ${words.title} in any of ${replications} shows, so that modules cannot be ranked by it.`
      : `Of no single module is it sure that the show would gain if it never stopped: ${words.title} ${words.estimate(now)} as it is, over ${replications} shows.`;
  const settled = kept.length <= places;
  return `${settled ? 'Mend' : `As far as ${replications} shows tell, mend`} ${listing(
    first.map(({ id }) => id),
    first.length,
  )} first: if ${best.id} never stopped, ${words.title} would ${words.measure.better === 'more' ? 'rise' : 'fall'} by ${words.estimate(best.gain)}${settled ? `, over ${best.gain.replications} shows` : ''}; now it is ${words.brief(now)}.`;
}

/** Whether the first are the first for sure. */
function because(
  { places, modules }: MendFirst,
  kept: readonly MendGain[],
  first: readonly MendGain[],
): string[] {
  const harmed = modules.filter(({ gain }) => (gain.high ?? 0) < 0).map(({ id }) => id);
  const harm =
    harmed.length === 0
      ? []
      : [
          `Careful: without the stops of ${listing(harmed, 3)} the show would get worse: while they stand, others get fewer balls.`,
        ];
  if (first.length === 0 || modules.length <= places) return harm;
  return [
    ...harm,
    kept.length <= places
      ? `That the first ${places} are among ${listing(
          kept.map(({ id }) => id),
          places,
        )} is 95 % sure; their order is as seen.`
      : `It is not settled which are the first ${places}: ${kept.length} of ${modules.length} modules could still be among them.`,
  ];
}

function gainsTable({ on }: MendFirst, kept: readonly MendGain[]): AnswerTable {
  const words = measureWords(on);
  return {
    title: `Gain in ${words.title}, if it never stopped`,
    head: ['if it never stopped', 'builder', 'gain', '95 % interval', 'shows'],
    rows: kept
      .slice(0, MOST)
      .map(({ id, builder = '', gain }) => [
        id,
        builder,
        words.mean(gain),
        words.interval(gain),
        String(gain.replications),
      ]),
  };
}

function pictures({ on, places }: MendFirst, kept: readonly MendGain[]): IntervalsPicture[] {
  const words = measureWords(on);
  const rows = kept
    .slice(0, MOST)
    .flatMap(({ id, gain: { mean, low, high } }, i) =>
      mean === null || low === null || high === null
        ? []
        : [{ label: id, mean, low, high, chosen: i < places }],
    );
  if (rows.length === 0) return [];
  return [
    {
      shape: 'intervals',
      id: 'gains',
      title: 'What the show gains if it never stopped',
      caption: `Gain in ${words.title} with the 95 % interval, module by module, best first${rows[0] ? `: ${rows[0].label} leads` : ''}.`,
      axis: `gain in ${words.title}`,
      kind: words.measure.kind,
      rows,
      lines: [{ value: 0, label: 'no gain' }],
    },
  ];
}

function sure({ modules, places, on }: MendFirst, kept: readonly MendGain[]): string[] {
  const dropped = modules.length - kept.length;
  return [
    `Gains in ${measureWords(on).title}, each against the same shows as they are.`,
    ...(dropped === 0
      ? []
      : [
          `${dropped === 1 ? 'One more module was' : `${dropped} more modules were`} dropped early: they cannot be among the first ${places}. What was seen of them until then stands in --json.`,
        ]),
    ...alikeNotes(kept.slice(0, MOST).map(({ gain }) => gain)),
    'The gain of two at once is not the sum.',
  ];
}
