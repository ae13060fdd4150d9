import { briefPhrase, estimatePhrase, KINDS, listing } from '../findings/index.js';
import type { ShowSpec } from '../model/spec/index.js';
import type { BasketFlood, WhenItStops } from '../studies/index.js';
import { clockLabel } from '../units/index.js';
import { alikeNotes } from './alikeWords.js';
import type { AnswerParts, AnswerTable } from './answer.js';
import { fallFigures, fallInterval, fallSentence, pullSentence } from './fallWords.js';
import { stopPictures } from './stopPictures.js';
import {
  actionSentence,
  ballWords,
  deedWords,
  floodsMore,
  halfAndTwentieth,
  limitsOfLatest,
  intervalOfTime,
  limitsOfTime,
  shareWithLimits,
  shareWords,
  timeWords,
} from './stopWords.js';

/** What the answer says about the moment that the stop begins. */
export interface StopMoment {
  readonly show: ShowSpec;
  /** Whether the levels of baskets were typed in, and the show begins with the stop. */
  readonly typed: boolean;
  /** The scenario file as it is typed into a shell. @default 'loop.yaml' */
  readonly file?: string;
  /** Options of the question as typed, such as `--for 120s`. @default '' */
  readonly options?: string;
  /** How many balls the basket of the module holds; where it is not limited or not told, nothing larger is proposed. */
  readonly holds?: number;
}

/**
 * What happens when a module stops now, in words, figures and pictures.
 *
 * @example
 * const study = new Study({ seed: 1, source: showsHere() });
 * const found = await whenItStops(study, exampleLoop, { module: 'slow', replications: 3, stopSeconds: 60 });
 * whenItStopsAnswer(found, { show: exampleLoop.show, typed: false }).verdict // => 'does not flood'
 */
export function whenItStopsAnswer(found: WhenItStops, moment: StopMoment): AnswerParts {
  return {
    question: 'when-stops',
    title: `When ${found.module} stops ${found.stop_s === null ? 'until it is cleared' : `for ${timeWords(found.stop_s)}`}`,
    verdict: verdict(found),
    sentence: [floodSentence(found), pullSentence(found), calmSentence(found)].filter(Boolean).join(' '),
    because: [...found.actions.map((action) => actionSentence(action, found)), surgeSentence(found)],
    pictures: stopPictures(found),
    tables: tables(found),
    sure: sure(found, moment),
    next: next(found, moment),
    details: { ...found },
  };
}

function own({ upstream }: WhenItStops): BasketFlood {
  const [first] = upstream;
  if (first === undefined) throw new Error('the stop of a module is told without its own basket');
  return first;
}

function verdict(found: WhenItStops): string {
  const most = Math.max(...found.upstream.map(({ floods }) => floods.mean ?? 0));
  if (most > 0) return most >= 0.5 ? 'floods' : 'may flood';
  if (own(found).when_full === 'spill' || found.full.p05.mean === null) return 'does not flood';
  return own(found).when_full === 'back_up' ? 'backs up' : 'sends back';
}

const WHEN_FULL = {
  spill: 'floods',
  back_up: 'is full and backs up',
  return: 'is full and sends balls back',
};

function floodSentence(found: WhenItStops): string {
  const { module, stop_s: stop, watched_s: watched, upstream, full } = found;
  const lasts = stop === null ? 'until a minder has cleared it' : `for ${timeWords(stop)}`;
  const start = `If ${module} stops now ${lasts}, `;
  const basket = own(found);
  const parts: string[] = [];
  if (basket.when_full !== 'spill' && full.p05.mean !== null && within(full.p05.mean, stop))
    parts.push(`its own basket ${WHEN_FULL[basket.when_full]} ${halfAndTwentieth(full, watched)}`);
  for (const place of upstream) {
    if ((place.floods.mean ?? 0) === 0) continue;
    const whose = place === basket ? 'its own basket' : `the basket of ${place.id}`;
    parts.push(
      (place.floods.mean ?? 0) >= 0.5
        ? `${whose} floods ${halfAndTwentieth(place.first, watched)}`
        : `${whose} floods in ${shareWithLimits(place.floods)}`,
    );
  }
  if (parts.length > 0) return `${start}${listing(parts, 9)}. ${fallSentence(found)}`;
  const none = `${start}no basket floods meanwhile: it did not happen in any of ${found.replications} shows (95 % interval up to ${((basket.floods.high ?? 1) * 100).toFixed(1)} % of them).`;
  const { whileStopped, after } = fallFigures(found.spilled);
  return Number(whileStopped) === 0 && Number(after) === 0 ? none : `${none} ${fallSentence(found)}`;
}

function within(seconds: number, stop: number | null): boolean {
  return stop === null || seconds < stop;
}

function calmSentence({ calm, watched_s: watched }: WhenItStops): string {
  const { p50, p95 } = calm.after;
  if (p50.mean === null)
    return `In half of the shows the loop is not calm again by the end of what was watched, ${timeWords(watched)} after the stop.`;
  if (p50.mean === 0 && p95.mean === 0) return 'The loop is calm as soon as it runs again.';
  const late = p95.mean === null ? 'not by the end of what was watched' : `after ${timeWords(p95.mean)}`;
  if (p50.mean === 0)
    return `In half of the shows the loop is calm as soon as it runs again, in one of twenty ${late}.`;
  return `The loop is calm again ${timeWords(p50.mean)} after the restart in half of the shows (${intervalOfTime(p50)}), in one of twenty ${late}.`;
}

function surgeSentence({ surge, module }: WhenItStops): string {
  const { handed_on_per_minute: peak, without, baskets } = surge;
  const fuller = baskets.filter((basket) => (basket.peak.low ?? 0) > (basket.without.high ?? Infinity));
  const rise = (peak.low ?? 0) > (without.high ?? Infinity);
  const handed = rise
    ? `Downstream ${module} hands on up to ${briefPhrase(peak, KINDS.balls)} a minute when it runs again, ${briefPhrase(without, KINDS.balls)} without the stop`
    : `Downstream there is no surge to speak of: ${module} hands on up to ${briefPhrase(peak, KINDS.balls)} a minute when it runs again, as without the stop`;
  if (fuller.length === 0) return `${handed}; none of the next baskets gets fuller than without it.`;
  return `${handed}; ${listing(fuller.map((basket) => `the basket of ${basket.id} rises to ${briefPhrase(basket.peak, KINDS.balls)} instead of ${briefPhrase(basket.without, KINDS.balls)}`))}.`;
}

function tables(found: WhenItStops): AnswerTable[] {
  const { upstream, downstream, spilled, surge, actions, watched_s: watched, full, calm, stood } = found;
  const line = (name: string, share: string, { p05, p50, p95 }: WhenItStops['full']): string[] => [
    name,
    share,
    ...[p05, p50].flatMap((at) => (at.mean === null ? ['-', '-'] : [timeWords(at.mean), limitsOfTime(at)])),
    p95.mean === null ? '-' : timeWords(p95.mean),
  ];
  const flood = (basket: BasketFlood): string[] =>
    line(`first ball falls at ${basket.id}`, shareWords(basket.floods), basket.first);
  const fall = fallFigures(spilled);
  const balls = (name: string, mean: string, estimate: WhenItStops['spilled']['all']): string[] => [
    name,
    `${mean} ${mean === '1' ? 'ball' : 'balls'}`,
    fallInterval(estimate, fall.decimals),
  ];
  return [
    {
      title: 'What happens when, counted from the stop',
      head: [
        '',
        'in shows',
        'one of twenty',
        'its 95 % interval',
        'half',
        'its 95 % interval',
        '19 of twenty',
      ],
      rows: [
        line(`basket of ${found.module} full, if it stayed stopped`, '', full),
        ...upstream.map(flood),
        ...downstream.filter(floodsMore).map(flood),
        found.stop_s === null ? line('runs again', '', stood) : givenRow('runs again', found.stop_s),
        line('calm again', shareWords(calm.share), calm.at),
      ],
    },
    {
      title: 'Balls that fall because of it, in the whole loop',
      head: ['', 'on average', '95 % interval'],
      rows: [
        balls('while it stands still', fall.whileStopped, spilled.while_stopped),
        balls('after it runs again', fall.after, spilled.after),
        balls('together', fall.all, spilled.all),
      ],
    },
    {
      title: 'The surge downstream, highest after the restart',
      head: ['', 'with the stop', 'without'],
      rows: [
        ['handed on in a minute', surge.handed_on_per_minute, surge.without] as const,
        ...surge.baskets.map(({ id, peak, without }) => [`basket of ${id}`, peak, without] as const),
      ].map(([name, ...both]) => [name, ...both.map((one) => estimatePhrase(one, KINDS.balls))]),
    },
    ...(actions.length === 0
      ? []
      : [
          {
            title: `By when hands must begin, to be ${(100 * found.sure).toFixed(0)} % sure that nothing falls meanwhile`,
            head: ['', 'too late if never done', 'if begun at once', 'begin within', '95 % interval'],
            rows: actions.map((action) => [
              deedWords(action),
              shareWords(action.falls),
              shareWords(action.falls_at_once),
              action.latest === null
                ? 'no hurry'
                : (action.latest.mean ?? 0) < 0
                  ? 'too late'
                  : timeWords(Math.floor(action.latest.mean ?? watched)),
              action.latest === null || (action.latest.mean ?? 0) < 0 ? '' : limitsOfLatest(action.latest),
            ]),
          },
        ]),
  ];
}

/** A moment that was not simulated but given. */
function givenRow(name: string, seconds: number): string[] {
  const words = timeWords(seconds);
  return [name, '', words, 'as given', words, 'as given', words];
}

function sure(found: WhenItStops, { show, typed }: StopMoment): string[] {
  const { module, left_out: left, replications, watched_s: watched, calm, stop_s: stop } = found;
  return [
    `${replications} pairs of shows, each with the same luck and the same to the last ball until it stops.${left === 0 ? '' : ` ${left} more were left out, because ${module} stood still or was out of the loop at that moment already.`}`,
    typed
      ? 'Now is the opening, with the levels typed in, and the crew as at the opening. Mechanisms and run-outs are still empty then: balls come a cycle and a way late, and everything may come that much sooner.'
      : `Now is ${clockLabel(show, found.at_s)}${found.at_s === 0 || show.opensAtSeconds === undefined ? '' : `, ${timeWords(found.at_s)} after the opening`}. How soon a basket floods depends on how full it stands now: with --levels say what you see.`,
    stop === null
      ? 'A minder comes as the file says, when one is free; levers are set as the file says.'
      : `A stop of a given length frees itself here: it keeps no minder busy, and no lever is set for it.`,
    `What had not happened ${timeWords(watched)} after the stop counts as later, not as never.`,
    `Calm is when for a whole minute no more than ${ballWords(calm.up_to_balls)} stand above the usual levels of their baskets (where a basket stands 95 % of the time or less): so few they are at 95 of 100 moments without the stop.`,
    ...(found.actions.length === 0
      ? []
      : [
          'By when to act is reckoned from shows in which nobody acts: until an action is done, everything is as without it. Whether a minder is free for it is not looked at.',
        ]),
    ...alikeNotes([
      found.surge.handed_on_per_minute,
      found.surge.without,
      ...found.surge.baskets.flatMap(({ peak, without }) => [peak, without]),
    ]),
    "Intervals of times are those of order statistics, of shares those of Clopper and Pearson, of balls Student's t. They say how much the figures would move with other luck, not whether the file is right.",
  ];
}

function next(found: WhenItStops, { file = 'loop.yaml', options = '', holds }: StopMoment): string[] {
  if (verdict(found) === 'does not flood') return [];
  const { module, actions } = found;
  const again = ['npx lapwright when-stops', file, module, ...(options === '' ? [] : [options])].join(' ');
  return [
    ...(actions.some(({ kind }) => kind === 'pull')
      ? []
      : [
          `How long you have to put a spare or a plain chute in, if that takes you 90 s: ${again} --swap-takes 90s`,
        ]),
    ...(holds === undefined || holds === Infinity
      ? []
      : [
          `What a larger basket would bring: npx lapwright compare ${file} --set modules.${module}.basket=${Math.ceil(1.5 * holds)}`,
        ]),
  ];
}
