import type { BestOf, Contender } from '../studies/index.js';
import { formatShare } from '../units/index.js';
import type { AnswerParts, AnswerTable } from './answer.js';
import { alikeNotes } from './alikeWords.js';
import { capital, type MeasureWords, measureWords } from './measureWords.js';
import type { IntervalsPicture } from './picture.js';

/**
 * Which of several is the best, in words, figures and a picture.
 *
 * @param title of the answer
 * @param found what the selection came to
 * @example
 * const study = new Study({ seed: 1, source: showsHere() });
 * const short = { ...exampleLoop, supply: { kind: 'charge', placed: [1, 0] } };
 * const systems = [system('twenty balls', exampleLoop), system('one ball', short)];
 * const found = await selectBest(study, systems, { replications: 10, on: 'throughput_bps', firstLook: 3 });
 * bestOfAnswer('Example: how many balls', found).verdict // => 'best'
 */
export function bestOfAnswer(title: string, found: BestOf): AnswerParts {
  return {
    question: 'best-of',
    title,
    verdict: found.verdict,
    sentence: sentence(found),
    because: because(found),
    pictures: pictures(found),
    tables: [contendersTable(found)],
    sure: sure(found),
    next: next(found),
    details: { ...found },
  };
}

function sentence(found: BestOf): string {
  const { verdict, on, contenders, left, promised, most, zone, first_look: first } = found;
  const words = measureWords(on);
  const [leader, second] = contenders;
  if (leader === undefined) return '';
  if (verdict === 'nothing to choose by')
    return `Nothing to choose by: ${words.title} 0 in all of them in the first ${first} shows.`;
  const chance = `with a chance of ${formatShare(promised)} at least, as far as differences of ${words.value(zone, leader.mean)} or more go`;
  const figures = `${words.title} ${words.estimate(leader.mean)}`;
  if (verdict === 'best')
    return `Take this one: ${leader.label}. It is the best of ${contenders.length} ${chance}: ${figures}, ${leader.shows} shows.${nextBest(second, words, zone)}`;
  return `The best is one of these ${left.length}, ${chance}: ${left.join('; ')}. ${most} shows of each did not tell them apart; ahead so far is ${leader.label}, ${figures}.`;
}

function nextBest(second: Contender | undefined, words: MeasureWords, zone: number): string {
  if (!second?.behind) return '';
  const { mean, low, high } = second.behind;
  const clear = low !== null && low > 0;
  if (low === 0 && high === 0) return ` Just as good in all shows: ${second.label}.`;
  return ` The next, ${second.label}, ${clear ? 'is' : 'may be as good:'} worse by ${words.estimate(second.behind)}${mean !== null && mean < zone ? ', less than what counts as a difference' : ''}.`;
}

function because({ zone_from: from, first_look: first, verdict }: BestOf): string[] {
  if (verdict === 'nothing to choose by' || from === null) return [];
  return [
    `What counts as a difference is 5 % of the mean of ${from} in the first ${first} shows, before any was dropped.`,
  ];
}

function contendersTable({ on, contenders, confidence }: BestOf): AnswerTable {
  const words = measureWords(on);
  return {
    title: capital(words.title),
    head: ['', 'mean', `${formatShare(confidence)} interval`, 'worse by', 'shows', 'dropped after'],
    rows: contenders.map(({ label, mean, behind, shows, dropped_after: dropped }) => [
      label,
      words.mean(mean),
      words.interval(mean),
      behind === null ? '' : words.interval(behind),
      String(shows),
      dropped === null ? '' : String(dropped),
    ]),
  };
}

function pictures(found: BestOf): IntervalsPicture[] {
  const { on, contenders, left, confidence, zone } = found;
  const words = measureWords(on);
  const rows = contenders.flatMap(({ label, behind }: Contender) => {
    const { mean, low, high } = behind ?? { mean: 0, low: 0, high: 0 };
    if (mean === null || low === null || high === null) return [];
    return [{ label, mean, low, high, chosen: left.includes(label) }];
  });
  const [leader] = contenders;
  if (rows.length < 2 || leader === undefined) return [];
  const kept =
    left.length === 1
      ? `${leader.label} is the one named`
      : `the best is among the ${left.length} marked ones`;
  return [
    {
      shape: 'intervals',
      id: 'behind',
      title: `How much worse than ${leader.label}`,
      caption: `Each line: by how much ${words.title} are worse than with ${leader.label}, with the ${formatShare(confidence)} interval, over the shows that it took; ${kept}.`,
      axis: `worse by, in ${words.title}`,
      kind: words.measure.kind,
      rows,
      lines: [{ value: 0, label: '' }, ...(zone > 0 ? [{ value: zone, label: 'does not matter' }] : [])],
    },
  ];
}

function sure(found: BestOf): string[] {
  const { procedure, confidence, zone, contenders, verdict, left_out: leftOut, left, on, most } = found;
  const words = measureWords(on);
  const like = contenders[0]?.mean;
  const alpha = formatShare(Number((1 - confidence).toFixed(12)));
  const promise =
    verdict === 'nothing to choose by' || like === undefined
      ? []
      : [
          `The chance holds if one of them leads all others by ${words.value(zone, like)} or more; if none does, the one named is usually one of those within that of the best. It takes for granted that a figure spreads about like a bell curve from show to show.`,
        ];
  const how =
    procedure === 'in turn'
      ? 'All met the same luck show by show, and those that could not be the best any more were dropped on the way (Kim and Nelson 2001), which is allowed for.'
      : `Each had shows with luck of its own, as many as its spread in the first look asked for, ${most} at most (Rinott 1978).`;
  const end =
    left.length > 1 && verdict !== 'nothing to choose by' && procedure === 'in turn'
      ? [
          `When the shows ran out, those clearly behind were dropped in a last look; on the way and there the best may have been lost with a chance of ${alpha} each.`,
        ]
      : [];
  return [
    ...promise,
    how,
    ...end,
    ...(leftOut > 0 ? [`${leftOut} shows were left out: one had nothing to measure in them.`] : []),
    ...(verdict === 'nothing to choose by'
      ? []
      : alikeNotes(contenders.flatMap(({ mean, behind }) => [mean, ...(behind === null ? [] : [behind])]))),
    'The intervals are those of each line by itself, from the same shows that chose: that of the one named flatters it a little. compare with another --seed judges it afresh.',
  ];
}

function next({ verdict, enough, most }: BestOf): string[] {
  if (verdict === 'nothing to choose by') return ['Choose by another measure: --on.'];
  if (verdict === 'best') return [];
  const shows =
    enough === null || enough <= most ? '' : `--replications ${enough} would be enough to name one. `;
  return [`${shows}A wider --zone needs fewer shows. Or take the one of them that is least work.`];
}
