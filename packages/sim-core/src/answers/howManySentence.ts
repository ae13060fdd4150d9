import type { Estimate } from '../statistics/index.js';
import type { Sweep, SweepValue } from '../studies/index.js';
import { formatNumber, formatSeconds, formatShare } from '../units/index.js';
import { rareShare } from './alikeWords.js';
import { capital, measureWords } from './measureWords.js';
import { variedWords } from './variedWords.js';

/** The measure that decides, at one value. */
export function deciding({ on }: Pick<Sweep, 'on'>, { measures }: SweepValue): Estimate {
  return measures.find(({ measure }) => measure === on)?.estimate as Estimate;
}

/** A limit or margin as it was meant, without the digits of an estimate. */
export function plainAmount(measure: string, amount: number): string {
  const { kind } = measureWords(measure);
  if (kind === 'time') return formatSeconds(amount);
  if ('clock' in kind) return formatNumber(amount);
  return kind.unit === '%' ? formatShare(amount) : `${formatNumber(amount)} ${kind.unit}`.trimEnd();
}

/** What a sweep comes to, with its evidence. */
export function howManySentence(sweep: Sweep): string {
  return sweep.form === 'limit' ? limitSentence(sweep) : enoughSentence(sweep);
}

/** The evidence at one value: the estimate with its interval and the number of shows. */
function evidence(sweep: Sweep, value: SweepValue): string {
  const words = measureWords(sweep.on);
  const estimate = deciding(sweep, value);
  if (estimate.mean === null) return 'there was nothing to measure';
  if (isUnseen(estimate))
    return `${words.mean(estimate)} (none seen in ${value.shows} shows: at most ${rareShare(estimate)} of shows have any)`;
  if (estimate.high === null) return `${words.mean(estimate)} in all of ${value.shows} shows`;
  return `${words.mean(estimate)} (95 % interval: ${words.interval(estimate)}, ${value.shows} shows)`;
}

/** Whether none was seen of what has no upper limit then. */
export function isUnseen({ mean, low, high }: Estimate): boolean {
  return mean === 0 && low === 0 && high === null;
}

/** What a value must have besides keeping the limit. */
export function keptBesides({ also, rules, thing }: Sweep): string[] {
  const besides = also.map(
    ({ measure, margin }) =>
      `for sure no fewer ${measureWords(measure).title} than now, but for ${plainAmount(measure, margin)}`,
  );
  if (rules.length === 0) return besides;
  const surelyBy = rules.some(({ measure }) => measure === 'throughput_bps') && thing.kind !== 'balls';
  const named = rules.map(
    ({ measure, side, limit }) => `${measureWords(measure).title} ${side} ${plainAmount(measure, limit)}`,
  );
  return [
    ...besides,
    `no rule of the house surely broken (${listed(named)}${surelyBy ? '; that on balls passing surely kept' : ''})`,
  ];
}

/** What a value costs in balls passing the counter, against now. */
function costInFlow({ on, now }: Sweep, { measures }: SweepValue): string {
  const flow = 'throughput_bps';
  const words = measureWords(flow);
  const of = (all: Sweep['now']): Estimate | undefined =>
    all.find(({ measure }) => measure === flow)?.estimate;
  const [then, today] = [of(measures), of(now)];
  if (on === flow || !then || !today || then.mean === null || today.mean === null) return '';
  if (then.mean >= today.mean || words.mean(then) === words.mean(today)) return '';
  const costs = (then.high ?? Infinity) < (today.low ?? -Infinity) ? 'costs' : 'may cost';
  return ` It ${costs} flow: ${words.title} at ${words.brief(then)} instead of ${words.brief(today)} now.`;
}

function limitSentence(sweep: Sweep): string {
  const { on, recommended, want, values, at_the_end: atTheEnd } = sweep;
  const words = measureWords(on);
  const varied = variedWords(sweep.thing, want);
  const side = words.measure.better === 'more' ? 'at least' : 'at most';
  const limit = `${side} ${plainAmount(on, sweep.limit ?? 0)}`;
  const found = values.find(({ value }) => value === recommended);
  const order = want === 'most' ? values : values.toReversed();
  if (found === undefined) {
    const first = order.find(({ verdict }) => verdict === 'undecided' || verdict === 'no');
    const most =
      first === undefined
        ? ''
        : ` With ${varied.having(first.value)}: ${evidence(sweep, first)}${besides(first) ?? (first.verdict === 'no' ? ', which breaks it for sure' : ', which does not settle it')}.`;
    if (sweep.also.length + sweep.rules.length > 0)
      return `No value looked at is sure to have all that was asked: the limit (${words.title} ${limit}) kept, and ${listed(keptBesides(sweep))}.${most}`;
    return `Of all values looked at none keeps the limit for sure: ${words.title} ${limit}.${most}`;
  }
  const beyond = order.slice(order.indexOf(found) + 1);
  const none = deciding(sweep, found).high === null;
  const open = beyond.filter(({ verdict }) => verdict === 'undecided');
  const broken = beyond.find(({ verdict }) => verdict === 'no');
  const rest = atTheEnd
    ? [`no ${want === 'most' ? 'larger' : 'smaller'} value was looked at`]
    : [
        ...(open.length === 0
          ? []
          : [`with ${listed(open.map(({ value }) => varied.cell(value)))} it is undecided`]),
        ...(broken === undefined
          ? []
          : [
              `with ${varied.short(broken.value)} ${tooLittle(broken) ?? `it is surely broken: ${words.brief(deciding(sweep, broken))}`}`,
            ]),
      ];
  const tail = rest.length === 0 ? '' : ` ${capital(rest.join('; '))}.`;
  return `${capital(varied.take(found.value))}: ${words.title} ${evidence(sweep, found)}, ${none ? `which counts as keeping ${limit}` : `so that ${limit} is kept for sure`}.${costInFlow(sweep, found)}${tail}`;

  /** What is said of a value that something else than the limit decides. */
  function besides(value: SweepValue): string | undefined {
    const said = tooLittle(value);
    if (said !== undefined) return `, but ${said}`;
    return value.decided_by === null || value.decided_by === on
      ? undefined
      : `; whether ${measureWords(value.decided_by).title} will do is undecided`;
  }

  function tooLittle({ decided_by: by, verdict, measures }: SweepValue): string | undefined {
    if (by === null || by === on || verdict !== 'no') return undefined;
    const estimate = measures.find(({ measure }) => measure === by)?.estimate as Estimate;
    return `${measureWords(by).title} would be ${measureWords(by).brief(estimate)}, which surely will not do`;
  }
}

function enoughSentence(sweep: Sweep): string {
  const { on, recommended, want, values, rival, margin } = sweep;
  const words = measureWords(on);
  const varied = variedWords(sweep.thing, want);
  const matters = [
    `up to ${plainAmount(on, margin ?? 0)} does not matter`,
    ...sweep.also.map(
      ({ measure, margin: amount }) =>
        `nor does up to ${plainAmount(measure, amount)} of ${measureWords(measure).title}`,
    ),
  ].join(', ');
  const found = values.find(({ value }) => value === recommended);
  if (found === undefined) {
    const judged = values.filter(({ verdict }) => verdict === 'undecided');
    const all = judged.map((one) => deciding(sweep, one));
    if (all.length > 0 && all.every(({ mean }) => mean === null))
      return `Undecided: there was nothing to measure of ${words.title} in any show.`;
    const [unseen] = all;
    const none =
      unseen !== undefined && all.every((one) => isUnseen(one))
        ? ` None were seen in ${unseen.replications} shows of each, by which at most ${rareShare(unseen)} of shows have any for sure.`
        : '';
    return `Undecided: ${judged.length === 0 ? 'the values looked at' : listed(judged.map(({ value }) => varied.cell(value)))} cannot be told apart surely enough on ${words.title}; ${matters}.${none}`;
  }
  const onCostlySide = rival !== null && (want === 'least') === rival.value > found.value;
  const most = Math.max(0, rival?.gain.high ?? 0);
  const others =
    rival === null
      ? ''
      : rival.gain.low === 0 && rival.gain.high === 0 && deciding(sweep, found).high === 0
        ? '; as the file stands there can be none with any value'
        : rival.gain.low === 0 && rival.gain.high === 0
          ? '; no other value looked at was better in any of these shows, which counts as not better'
          : most === 0
            ? '; no other value looked at is better'
            : `; ${onCostlySide ? `${varied.beyond} bring` : 'other values bring'} no difference that matters (at most ${words.value(most, rival.gain)} better; ${matters})`;
  const costlyEnd = (want === 'least' ? values.at(-1) : values[0])?.value === found.value;
  const cheapEnd = sweep.at_the_end
    ? `; no ${want === 'least' ? 'smaller' : 'larger'} value was looked at`
    : '';
  const end = `${cheapEnd}${costlyEnd ? `; ${varied.beyond} were not looked at` : ''}`;
  return `${capital(varied.take(found.value))}: ${words.title} ${evidence(sweep, found)}${others}${cheaper(sweep)}${end}.`;
}

/** What the first value on the cheap side that is not surely enough would give. */
function cheaper(sweep: Sweep): string {
  const { next, on, values, margin, also } = sweep;
  const after = values.find(({ value }) => value === next?.value);
  if (next === null || after === undefined) return '';
  const words = measureWords(next.measure);
  const mean = words.brief(deciding({ on: next.measure }, after));
  const matters = next.measure === on ? margin : also.find(({ measure }) => measure === next.measure)?.margin;
  const surely =
    -(next.gain.high ?? 0) > (matters ?? 0) ? '' : ', and it is undecided whether that is enough';
  const figure = next.measure === on ? ` it is ${mean}` : `: ${words.title} ${mean}`;
  return `; with ${variedWords(sweep.thing, sweep.want).short(after.value)}${figure}${surely}`;
}

/** Names one after the other: a, b and c. */
export function listed(names: readonly string[]): string {
  return names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}
