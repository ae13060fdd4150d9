import { listing } from '../findings/index.js';
import type { Estimate } from '../statistics/index.js';
import type { FirstAid, FloodCard, FloodLine } from '../studies/index.js';
import type { AnswerParts } from './answer.js';
import type { IntervalsPicture } from './picture.js';
import { limitsOfTime, timeWords } from './stopWords.js';

/** Lines of the picture. */
const MOST = 12;
/** Less time than this, seconds, is none. */
const AT_ONCE = 10;

/**
 * How soon each basket floods when its module stops, in words, figures and a picture.
 *
 * @param name of the scenario
 * @param file of the scenario, as it is typed into a shell
 * @example
 * const study = new Study({ seed: 1, source: showsHere() });
 * floodCardAnswer('Example', await floodCard(study, exampleLoop, { replications: 3 })).verdict // => 'none floods'
 */
export function floodCardAnswer(name: string, card: FloodCard, file = 'loop.yaml'): AnswerParts {
  const soonest = card.modules
    .filter(({ p05 }) => p05.mean !== null)
    .toSorted((a, b) => (a.p05.mean ?? 0) - (b.p05.mean ?? 0));
  return {
    question: 'flood-card',
    title: `${name}: how soon each basket floods`,
    verdict: soonest.length === 0 ? 'none floods' : 'some flood',
    sentence: sentence(card, soonest),
    because: [],
    pictures: picture(soonest, card),
    tables: [
      {
        title: 'If it stops now, its basket floods after',
        head: [
          'module',
          'builder',
          'one of twenty',
          'its 95 % interval',
          'half',
          'its 95 % interval',
          'first',
        ],
        rows: card.modules.map((line) => [
          line.id,
          line.builder ?? '',
          after(line.p05.mean, card),
          line.p05.mean === null ? '-' : limits(line.p05),
          after(line.p50.mean, card),
          line.p50.mean === null ? '-' : limits(line.p50),
          firstAidWords(line),
        ]),
      },
    ],
    sure: sure(card),
    next: [
      `For one module with all that follows, the balls that fall and the latest moment to act: npx lapwright when-stops ${file} ${(soonest[0] ?? card.modules[0])?.id ?? ''}`,
    ],
    details: { ...card },
  };
}

function sentence(
  { modules, watched_s: watched, replications }: FloodCard,
  soonest: readonly FloodLine[],
): string {
  const [first] = soonest;
  if (first === undefined)
    return `None of these ${modules.length} baskets floods within ${timeWords(watched)} if its module stops, in one of twenty cases (${replications} shows).`;
  const near = soonest.filter(({ p05 }) => (p05.mean ?? 0) < 1.1 * (first.p05.mean ?? 0)).map(({ id }) => id);
  const soonestOnes =
    near.length === 1
      ? `the basket of ${first.id} floods soonest:`
      : `the baskets of ${listing(near)} flood soonest, that of ${first.id}`;
  return `If a module stops, ${soonestOnes} in one of twenty cases within ${timeWords(Math.floor(first.p05.mean ?? 0))} (95 % interval ${limits(first.p05)}, ${replications} shows), in half of them within ${after(first.p50.mean, { watched_s: watched })}. ${soonest.length} of ${modules.length} baskets may flood within ${timeWords(watched)}.`;
}

function after(seconds: number | null, { watched_s: watched }: Pick<FloodCard, 'watched_s'>): string {
  return seconds === null ? `over ${timeWords(watched)}` : timeWords(Math.floor(seconds));
}

/** Cut off like the times themselves. */
function limits(time: Estimate): string {
  const { low, high } = time;
  const cut = (value: number | null): number | null => (value === null ? null : Math.floor(value));
  return limitsOfTime({ ...time, low: cut(low), high: cut(high) });
}

/**
 * What to do first when a module stands still, in few words: no hurry where its basket does not flood while it is watched.
 *
 * @example
 * const p05 = { mean: 116.7, low: 110, high: 125, confidence: 0.95, replications: 60 };
 * firstAidWords({ when_full: 'spill', p05, first: { kind: 'swap', what: 'understudy', takes_s: 90, within_s: 26.7 } }) // => 'swap in understudy (1 min 30 s) within 26 s'
 */
export function firstAidWords({
  first,
  when_full: full,
  returns_to: to,
  p05,
}: Pick<FloodLine, 'first' | 'when_full' | 'returns_to' | 'p05'>): string {
  if (p05.mean === null) return 'no hurry';
  const hands =
    full === 'back_up'
      ? 'backs up: look after the one before'
      : full === 'return'
        ? `sends back to ${to ?? 'another'}: watch that basket`
        : 'take balls out by hand';
  if (first.kind === 'by_hand') return hands;
  const deed = first.kind === 'lever' ? `lever of ${first.what}` : `swap in ${first.what}`;
  return `${deed} (${timeWords(first.takes_s)})${hurry(first, hands)}`;
}

function hurry({ within_s: within }: FirstAid, hands: string): string {
  if (within === null) return '';
  if (within >= 0 && within < AT_ONCE) return ' at once';
  return within >= 0 ? ` within ${timeWords(Math.floor(within))}` : `, but first ${hands}`;
}

function picture(soonest: readonly FloodLine[], { watched_s: watched }: FloodCard): IntervalsPicture[] {
  if (soonest.length === 0) return [];
  return [
    {
      shape: 'intervals',
      id: 'soonest',
      title: 'Which baskets flood soonest',
      caption: `Time from the stop of a module until its basket floods, the ${Math.min(MOST, soonest.length)} soonest: dots for half of the cases, bars from one of twenty to 19 of twenty.`,
      axis: 'time until its basket floods',
      kind: 'time',
      rows: soonest.slice(0, MOST).map(({ id, p05, p50, p95 }, i) => ({
        label: id,
        low: p05.mean ?? 0,
        mean: p50.mean ?? watched,
        high: p95.mean ?? watched,
        chosen: i === 0,
      })),
      lines: [],
    },
  ];
}

function sure({ replications, moments, watched_s: watched, modules }: FloodCard): string[] {
  return [
    `${replications} shows, ${moments} random moments in each, and at each moment all modules in turn imagined stopped. Moments at which a module stood still or was out of the loop anyway do not count for it.`,
    'One set of shows tells all of them: a stopped module holds back none of those before it, so balls come to it as they do anyway. What its stop does to the crew is left out.',
    `What had not flooded after ${timeWords(watched)} counts as later, not as never. Intervals allow for moments of one show being alike.`,
    ...(modules.some(({ reckoned }) => reckoned)
      ? [
          'Where balls drop straight from one mechanism into the next basket, the time is reckoned without chance.',
        ]
      : []),
    'The real basket decides: a fuller one floods sooner than the card says.',
  ];
}
