import {
  type Inline,
  type JudgedLoop,
  type RuleCheck,
  type ToleratedStops,
  usedUp,
} from '../studies/index.js';
import { doubtPicture } from './doubtWords.js';
import { capital, measureWords } from './measureWords.js';
import type { IntervalsPicture, Picture, RibbonPicture } from './picture.js';
import { limitPhrase, ruleWords } from './ruleWords.js';
import { mostStops, rateWords } from './stopsPerHour.js';

/** Places in the picture of the search. */
const MOST_PLACES = 14;

/** The pictures of the question whether a module may go inline. */
export function inlinePictures(found: Inline): Picture[] {
  const { with_it: own, stops, search } = found;
  const rule = own.rules.findIndex(({ name }) => name === (stops?.rule ?? own.decides));
  const ribbon = stops === null ? [] : stopsRibbon(found, stops, own.rules[rule] as RuleCheck, rule);
  return [
    ...doubtPicture(found, ruleRow),
    ...rulesPicture(found),
    ...ribbon,
    ...(search === null ? [] : placesPicture(found)),
  ];
}

/** Each rule as a share of its limit, with the module, without it and with a spare. */
function rulesPicture({
  module,
  with_it: own,
  without_it: without,
  with_stand_in: instead,
}: Inline): IntervalsPicture[] {
  const rows = own.rules.flatMap((_, i) =>
    [own, without, instead].flatMap((loop) => ruleRow(loop, i, loop === own)),
  );
  if (rows.length === 0) return [];
  const each = own.rules.flatMap(({ name, used }) =>
    used === null || !Number.isFinite(used) ? [] : [`${ruleWords(name).title} ${Math.round(100 * used)} %`],
  );
  const upsideDown = own.rules.some(({ side }) => side === 'at least');
  return [
    {
      shape: 'intervals',
      id: 'rules',
      title: 'What each rule of the house says',
      caption: `How much of its limit each figure uses up, with its interval; right of the line the rule is broken${upsideDown ? '. Where the house asks for at least so much, it is the limit as a share of the figure' : ''}. With ${module}: ${each.join(', ')}.`,
      axis: 'used up of the limit',
      kind: 'share',
      rows,
      lines: [{ value: 1, label: 'the limit' }],
    },
  ];
}

function ruleRow({ label, rules }: JudgedLoop, i: number, chosen: boolean): IntervalsPicture['rows'] {
  const rule = rules[i] as RuleCheck;
  const { mean, low, high } = rule.estimate;
  const used = (value: number): number => usedUp(rule, value);
  if (mean === null || low === null) return [];
  const ends = [used(low ?? mean), used(mean), used(high ?? mean)];
  // A limit of nothing at all, or a figure of nothing, has no share.
  if (!ends.every(Number.isFinite)) return [];
  return [
    {
      label: `${ruleWords(rule.name).title}: ${label}`,
      mean: used(mean),
      low: Math.min(...ends),
      high: Math.max(...ends),
      chosen,
    },
  ];
}

/** The figure that breaks first, over the stops per hour of the module. */
function stopsRibbon(
  { module, confidence }: Inline,
  stops: ToleratedStops,
  rule: RuleCheck,
  index: number,
): RibbonPicture[] {
  const rows = stops.points.flatMap(({ stops_per_hour: x, figures }) => {
    const { mean, low, high } = figures[index] ?? { mean: null, low: null, high: null };
    return mean === null
      ? []
      : [{ x, mean, low: low ?? mean, high: high ?? mean, whole: low !== null && high !== null }];
  });
  if (rows.length < 2) return [];
  const { mean } = stops.stops_per_hour;
  const most = mean === null || mean <= 0 ? null : mostStops({ ...stops.stops_per_hour, mean }, confidence);
  const words = ruleWords(rule.name);
  const limit = limitPhrase(rule);
  return [
    {
      shape: 'ribbon',
      id: 'stops',
      title: 'How many stops the house would stand',
      caption: `${capital(words.title)} over the stops per hour of ${module}, with the interval${rows.some(({ whole }) => !whole) ? ', or the mean alone where there is none' : ''}; the limit of the house is ${limit}.${crossingWords(stops, rule, most)}`,
      axis: words.title,
      kind: measureWords(rule.measure).measure.kind,
      across: { title: `stops of ${module} per public hour`, kind: 'plain' },
      rows: rows.map(({ x, mean: y, low, high }) => ({ x, mean: y, low, high })),
      lines: [{ value: rule.limit, label: limit }],
      chosen: mean === null || most === null ? null : { value: mean, label: `passes up to ${most}` },
    },
  ];
}

/** Where the curve crosses the limit, if it does. */
function crossingWords(
  { found, stops_per_hour: { mean }, now }: ToleratedStops,
  { side }: RuleCheck,
  most: string | null,
): string {
  const has = `it has ${rateWords(now)}`;
  if (most !== null) return ` The curve crosses that at ${most} stops per hour; ${has}.`;
  if (found !== 'none' && mean === null) return '';
  return ` The curve never comes ${side === 'at most' ? 'below' : 'above'} the limit, even without its stops; ${has}.`;
}

/** The places, best first. */
function placesPicture({ search, place }: Inline): IntervalsPicture[] {
  if (search === null) return [];
  const { title, measure } = measureWords(search.measure);
  const turned = measure.better === 'more' ? -1 : 1;
  const rows = search.places
    .flatMap(({ label, figure: { mean, low, high } }) =>
      mean === null || low === null || high === null
        ? []
        : [{ label, mean, low: Math.max(0, low), high, chosen: label === place }],
    )
    .toSorted((a, b) => Number(b.chosen) - Number(a.chosen) || turned * (a.mean - b.mean))
    .slice(0, MOST_PLACES);
  return rows.length === 0
    ? []
    : [
        {
          shape: 'intervals',
          id: 'places',
          title: 'Where it does best',
          caption: `${capital(title)} with the module in each place, as the search saw it. Bars are for telling places from each other in the same shows, not for the figure by itself, whose interval is wider; ${place} looked best${search.places.length > rows.length ? ` of ${search.places.length}` : ''}.`,
          axis: title,
          kind: measure.kind,
          rows,
          lines: [],
        },
      ];
}
