import { estimatePhrase, intervalPhrase, KINDS, meanPhrase } from '../findings/index.js';
import type { Estimate } from '../statistics/index.js';
import type { HowRare } from '../studies/index.js';
import type { AnswerParts } from './answer.js';
import type { IntervalsPicture } from './picture.js';

/** A chance above this is told in per cent alone: one in so many says no more. */
const SMALL = 0.1;

/**
 * How rarely a basket runs over, in words, figures and a picture.
 *
 * @param name of the scenario
 * @param file of the scenario, as it is typed into a shell
 * @example
 * const study = new Study({ seed: 1, source: showsHere() });
 * howRareAnswer('Example', await howRare(study, exampleLoop, { starts: 2 })).question // => 'how-rare'
 */
export function howRareAnswer(name: string, found: HowRare, file = 'loop.yaml'): AnswerParts {
  const { module, in_a_show: show, in_an_hour: hour, per_hour: balls } = found;
  const whose = module === null ? 'some basket' : `the basket of ${module}`;
  const seen = found.starts_with_spill > 0;
  return {
    question: 'how-rare',
    title: `${name}: how rarely ${whose} runs over`,
    verdict: seen ? ((show.mean ?? 0) > SMALL ? 'not rare' : 'rare') : 'not seen',
    sentence: seen ? seenSentence(whose, found) : unseenSentence(whose, found),
    because: [],
    pictures: seen ? [picture(whose, show, hour)] : [],
    tables: [
      {
        title: `How rarely ${whose} runs over`,
        head: ['', 'mean', '95 % interval'],
        rows: [
          ['chance in a show', chanceText(show), intervalPhrase(show, KINDS.share)],
          ['chance in a public hour', chanceText(hour), intervalPhrase(hour, KINDS.share)],
          ['balls spilled there', meanPhrase(balls, KINDS.perHour), intervalPhrase(balls, KINDS.perHour)],
        ],
      },
      ...(found.levels.length === 0
        ? []
        : [
            {
              title: 'Where shows were split',
              head: ['basket filled to', 'goes on in'],
              rows: found.levels.map(({ share, copies }) => [
                `${(100 * share).toFixed(0)} %`,
                `${copies} ways`,
              ]),
            },
          ]),
    ],
    sure: sure(found),
    next: [
      ...(seen && found.method === 'splitting' && found.starts_with_spill < 30
        ? [`For a narrower interval take more starts: -n ${4 * found.starts}.`]
        : []),
      ...(module === null
        ? [`For one basket name its module: npx lapwright how-rare ${file} and its name.`]
        : [`What happens when it stops: npx lapwright when-stops ${file} ${module}.`]),
    ],
    details: { ...found },
  };
}

function seenSentence(whose: string, { in_a_show: show, starts, method }: HowRare): string {
  const mean = show.mean ?? 0;
  const often = mean < SMALL ? `about 1 of ${inWords(1 / mean)} shows: ` : '';
  const how = method === 'splitting' ? `${starts} starts, by multilevel splitting` : `${starts} plain shows`;
  const text = `${whose} runs over in ${often}${estimatePhrase(show, KINDS.share)}${often === '' ? ' of the shows' : ''}, ${how}.`;
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function unseenSentence(whose: string, { in_a_show: { high }, starts, levels }: HowRare): string {
  const reached = levels.at(-1);
  const far =
    reached === undefined
      ? ''
      : ` Shows were split up to where it was ${(100 * reached.share).toFixed(0)} % full, and none came further.`;
  const text = `${whose} ran over in none of ${starts} starts: in at most ${(100 * (high ?? 1)).toPrecision(2)} % of the shows.${far}`;
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** Two digits, with commas between thousands. */
function inWords(number: number): string {
  const digits = Math.max(0, Math.floor(Math.log10(number)) - 1);
  return (Math.round(number / 10 ** digits) * 10 ** digits).toLocaleString('en-US');
}

/** A chance smaller than a ten-thousandth of a per cent is written with its power of ten. */
function chanceText(chance: Estimate): string {
  const mean = chance.mean ?? 0;
  return mean > 0 && mean < 1e-6 ? `${(100 * mean).toExponential(1)} %` : meanPhrase(chance, KINDS.share);
}

function picture(whose: string, show: Estimate, hour: Estimate): IntervalsPicture {
  const row = (label: string, { mean, low, high }: Estimate, chosen: boolean) => ({
    label,
    mean: mean ?? 0,
    low: low ?? 0,
    high: high ?? mean ?? 0,
    chosen,
  });
  return {
    shape: 'intervals',
    id: 'chance',
    title: `Chance that ${whose} runs over`,
    caption: `In a show ${estimatePhrase(show, KINDS.share)}; in a full public hour ${estimatePhrase(hour, KINDS.share)}.`,
    axis: 'chance that it runs over',
    kind: 'share',
    rows: [
      row('in a show', show, true),
      ...(hour.mean === null ? [] : [row('in a public hour', hour, false)]),
    ],
    lines: [],
  };
}

function sure({
  method,
  starts,
  starts_with_spill: seen,
  shows,
  pilot_shows: pilot,
  worth_shows: worth,
}: HowRare): string[] {
  const whole = (number: number): string => Math.round(number).toLocaleString('en-US');
  if (method === 'plain')
    return [
      seen > 0
        ? `${starts} plain shows, in ${seen} of which it ran over. That is often enough to be seen so; splitting shows would bring nothing.`
        : `${starts} plain shows. In ${whole(pilot)} shows before them no basket that is watched came fuller in some than in others, so there was no level to split shows at.`,
      'A ball that finds no room and falls counts, from the end of the warm-up on.',
    ];
  return [
    `Multilevel splitting: whenever the basket fills to the next level, the show goes on in several ways with luck of their own, and each counts for as much less. So the mean is that of plain shows, whatever the levels are. They were found with ${whole(pilot)} shows that had no other part in this.`,
    `${starts} independent starts, in ${seen} of which it ran over in at least one of the ways; the interval is over starts. Simulated were as many hours as in ${whole(shows)} whole shows${worth === null ? '' : `; with plain shows it would take about ${inWords(worth)} to be as sharp`}.`,
    'A ball that finds no room and falls counts, from the end of the warm-up on. So small a chance rests on the file more than others do: how long the longest stops last decides it.',
  ];
}
