import type { Estimate } from '../statistics/index.js';
import type { BestOrder, JudgedMove } from '../studies/index.js';
import { formatShare } from '../units/index.js';
import type { AnswerParts, AnswerTable } from './answer.js';
import { alikeNotes } from './alikeWords.js';
import { measureWords } from './measureWords.js';
import type { IntervalsPicture, OrdersPicture, Picture } from './picture.js';

/**
 * A better order of the modules, in words, figures and pictures.
 *
 * @param name of the scenario
 * @param found what the search came to
 * @example
 * const study = new Study({ seed: 1, source: showsHere() });
 * const build = (order) => ({ ...exampleLoop, modules: order.map((id) => exampleLoop.modules.find((one) => one.id === id)) });
 * const problem = { today: ['quick', 'slow'], rules: [], closed: true, build, strain: () => 0 };
 * bestOrderAnswer('Example', await bestOrder(study, problem, { budget: 40, mostMoved: 0 })).verdict // => 'nothing found'
 */
export function bestOrderAnswer(name: string, found: BestOrder): AnswerParts {
  return {
    question: 'best-order',
    title: `${name}: a better order`,
    verdict: found.verdict,
    sentence: sentence(found),
    because: because(found),
    pictures: pictures(found),
    tables: tables(found),
    sure: sure(found),
    next: next(found),
    details: { ...found },
  };
}

function sentence(found: BestOrder): string {
  const {
    verdict,
    on,
    before,
    after,
    gain,
    moves,
    search_orders: tried,
    order,
    broken_today: broken,
  } = found;
  const words = measureWords(on);
  if (before === null || after === null || gain === null)
    return `Leave the modules as they stand: ${counted(tried, 'order')} looked at, and none promised to be better.`;
  const carried = carriedWords(moves, order.length);
  const worse = (gain.mean ?? 0) < 0;
  const by = worse ? 'seems worse by' : verdict === 'better' ? 'is better by' : 'seems better by';
  const figures = `${words.title} ${words.brief(before)} today, ${words.brief(after)} in the new order, which ${by} ${words.estimate(worse ? turned(gain) : gain)} over ${gain.replications} fresh shows of each`;
  if (verdict === 'better') {
    const little = (gain.mean ?? 0) < LITTLE * Math.abs(before.mean ?? 0);
    return little
      ? `There is a slightly better order, hardly worth the carrying, for which ${carried}: ${figures}.`
      : `There is a better order, for which ${carried}: ${figures}.`;
  }
  if (broken.length > 0)
    return `For the best order found that keeps the rules, as today's does not, ${carried}: ${figures}. That it is better is not sure.`;
  return `No order was found that is surely better. For the most promising one ${carried}: ${figures}.`;
}

/** A gain below this share of today's figure is hardly worth carrying tables. */
const LITTLE = 0.05;

function turned({ mean, low, high, ...rest }: Estimate): Estimate {
  const minus = (value: number | null): number | null => (value === null ? null : 0 - value);
  return { ...rest, mean: minus(mean), low: minus(high), high: minus(low) };
}

function counted(count: number, one: string): string {
  return `${count} ${one}${count === 1 ? ' was' : 's were'}`;
}

function carriedWords(moves: readonly JudgedMove[], all: number): string {
  const count = moves.reduce((sum, { modules }) => sum + modules.length, 0);
  return `${count} of ${all} modules ${count === 1 ? 'is' : 'are'} carried elsewhere`;
}

function because({ broken_today: broken, moves, gain }: BestOrder): string[] {
  const sureOnes = moves
    .filter((move) => (move.gain?.low ?? 0) > 0)
    .map(({ modules }) => modules.join(' with '));
  return [
    ...(broken.length === 0 ? [] : [`Today's order does not keep these rules: ${broken.join('; ')}.`]),
    ...(gain === null || sureOnes.length === 0 || moves.length === 1
      ? []
      : [
          sureOnes.length === 1
            ? `The move that surely counts by itself: ${sureOnes.join('')}.`
            : `The moves that surely count, each by itself: ${sureOnes.join('; ')}.`,
        ]),
  ];
}

function tables(found: BestOrder): AnswerTable[] {
  const { on, moves, steps } = found;
  if (moves.length === 0) return [];
  const words = measureWords(on);
  return [
    {
      title: `What each move brings in ${words.title}, if all others are made`,
      head: [
        'carried',
        'to behind',
        'gain',
        `${formatShare(found.gain?.confidence ?? 0.95)} interval`,
        'shows',
      ],
      rows: moves.map(({ modules, after, gain, undone_with: partners }) => [
        partners.length === 0 ? modules.join(', ') : `${modules.join(', ')} (with ${partners.join(', ')})`,
        after ?? 'comes first',
        gain === null ? 'not tried' : words.mean(gain),
        gain === null ? '' : words.interval(gain),
        gain === null ? '' : String(gain.replications),
      ]),
    },
    {
      title: 'The same as options of compare, in this order',
      head: ['module', 'option'],
      rows: steps.map(({ module, side, beside }) => [module, `--move ${module} --${side} ${beside}`]),
    },
  ];
}

function pictures(found: BestOrder): Picture[] {
  const { on, order, order_before: before, moves, gain } = found;
  if (gain === null) return [];
  const words = measureWords(on);
  const carried = moves.flatMap(({ modules }) => modules);
  const orders: OrdersPicture = {
    shape: 'orders',
    id: 'orders',
    title: 'From today’s order to the new one',
    caption: `Today's order on the left, the new one on the right; carried elsewhere: ${carried.join(', ')}. The others stand to each other as they do today.`,
    before,
    after: order,
    moved: carried,
  };
  const rows = [
    { label: 'all moves, against today', estimate: gain, chosen: true },
    ...moves.flatMap(({ modules, gain: one }) =>
      one === null ? [] : [{ label: modules.join(', '), estimate: one, chosen: false }],
    ),
  ].flatMap(({ label, estimate: { mean, low, high }, chosen }) =>
    mean === null || low === null || high === null ? [] : [{ label, mean, low, high, chosen }],
  );
  const gains: IntervalsPicture = {
    shape: 'intervals',
    id: 'gains',
    title: 'What the moves bring',
    caption: `Gain in ${words.title} with its interval: all moves together against today's order, and each move against the new order without it.`,
    axis: `gain in ${words.title}`,
    kind: words.measure.kind,
    rows,
    lines: [{ value: 0, label: 'no gain' }],
  };
  return rows.length === 0 ? [orders] : [orders, gains];
}

function sure({
  gain,
  on,
  search_shows: searched,
  search_orders: orders,
  rules,
  moves,
  most_moved: most,
  order,
}: BestOrder): string[] {
  const look = `${counted(orders, 'order')} looked at with ${searched} shows, in rounds in which all met the same luck: what was seen so far, and a rough reckoning, chose the next ones, and the best raced against the order to begin with. The best of all orders may be another one.`;
  const kept = rules.length === 0 ? [] : [`Kept in every order that was tried: ${rules.join('; ')}.`];
  const few = most < order.length ? [`No more than ${most} were to be carried.`] : [];
  if (gain === null) return [look, ...kept, ...few];
  return [
    `The gain is from ${gain.replications} shows of each order that had no part in finding it, so that no luck of the search is in it; both met the same luck show by show (Student's t on the differences).`,
    look,
    ...kept,
    ...few,
    ...(moves.length > 1
      ? [
          `What a move brings is measured by undoing it alone. The sum of all need not be the whole, and with ${moves.length} of them one interval or another may miss by chance.`,
        ]
      : []),
    ...alikeNotes([gain, ...moves.flatMap(({ gain: one }) => one ?? [])]),
    `Gains are in ${measureWords(on).title}; other figures may change too: compare shows them all.`,
  ];
}

function next({ verdict, order, gain, moves, budget }: BestOrder): string[] {
  const more = `More shows find more: --budget ${3 * budget}. Another --seed looks elsewhere.`;
  if (gain === null) return [more];
  const idle = moves.filter(({ gain: one }) => one !== null && (one.low ?? 0) <= 0);
  return [
    'Check it with compare, the options in the table and another --seed, before anybody lifts a module.',
    ...(verdict === 'better' && idle.length > 0 && moves.length > 1
      ? [
          `Not sure to help by itself: ${idle.map(({ modules }) => modules.join(', ')).join('; ')}. With --moves ${Math.max(1, moves.length - idle.length)} fewer are carried.`,
        ]
      : []),
    ...(verdict === 'better' ? [] : [more]),
    `The new order, to stand in the file: order: [${order.join(', ')}]`,
  ];
}
