import type { ModuleRoughCut, RoughCut } from '../estimates/index.js';
import type { LoopSpec, ShowSpec } from '../model/spec/index.js';
import type { Scenario } from '../scenario/index.js';
import { mayLock, standstill, unattended } from '../findings/index.js';
import { formatNumber, formatSeconds } from '../units/index.js';
import { handsSentences, listLine, whenFullLines } from './checkPlaces.js';
import { table, wrap } from './layout.js';

/** How to get at what the text leaves out, as words of a sentence. */
export interface CheckHints {
  /** "The formulas behind these figures: ..." */
  readonly formulas: string;
  /** "... shows how much." */
  readonly run: string;
}

const ON_THE_COMMAND_LINE: CheckHints = { formulas: 'add --formulas', run: 'npx lapwright run' };

/**
 * What `lapwright check` prints: the loop in a few sentences, then a line for each module.
 *
 * @param hints for other places than the command line
 * @example
 * checkText(exampleScenario, roughCut(exampleLoop), false).startsWith('Example: 2 modules, 20 balls in a loop') // => true
 */
export function checkText(
  scenario: Scenario,
  rough: RoughCut,
  formulas: boolean,
  hints: CheckHints = ON_THE_COMMAND_LINE,
): string {
  const parts = [
    intro(scenario),
    ...sentences(scenario, rough),
    ...leakSentence(scenario, rough),
    ...crewSentences(scenario, rough),
    ...handsSentences(scenario.spec),
    moduleTable(scenario, rough),
    ...whenFullLines(scenario.spec, rough),
    conformity(rough),
    ...(formulas ? [FORMULAS] : [`The formulas behind these figures: ${hints.formulas}.`]),
    closing(scenario, hints),
  ];
  return `${parts.map((part) => (part.includes('\n') ? part : wrap(part))).join('\n\n')}\n`;
}

function intro({ name, spec, sideTable, source }: Scenario): string {
  const builders = new Set(spec.modules.flatMap(({ builder }) => builder ?? []));
  const by = builders.size > 0 ? ` by ${count(builders.size, 'builder')}` : '';
  const balls =
    spec.supply.kind === 'charge'
      ? `${count(sum(spec.supply.placed), 'ball')} in a loop`
      : 'an open chain with a feed';
  const most = Math.max(...spec.crew.duty.map(({ minders }) => minders));
  const side = sideTable.length > 0 ? ` On the side table: ${sideTable.map(({ id }) => id).join(', ')}.` : '';
  const { spares = [] } = spec;
  const spare = spares.length > 0 ? ` Spares: ${spares.map(({ id }) => id).join(', ')}.` : '';
  return `${name}: ${count(spec.modules.length, 'module')}${by}, ${balls}, ${count(most, 'minder')}, ${showLength(spec.show)}. The file ${source.file} is in order.${side}${spare}`;
}

/** The public time, and on how many days or in how many parts of a day. */
function showLength({ seconds, sessions = [], opensAtSeconds = 0 }: ShowSpec): string {
  const days = new Set(
    sessions.map(({ clockSeconds }) => Math.floor((opensAtSeconds + clockSeconds) / 86400)),
  );
  const parts =
    days.size > 1 ? ` on ${days.size} days` : sessions.length > 1 ? ` in ${sessions.length} sessions` : '';
  return formatSeconds(seconds) + parts;
}

function sentences({ spec }: Scenario, rough: RoughCut): string[] {
  const slowest = rough.modules[rough.slowest];
  if (slowest === undefined) return [];
  const loop = spec.supply.kind === 'charge';
  const flow = `${loop ? 'The loop' : 'The chain'} can pass at most about ${rough.flowBps.toFixed(2)} balls per second (bps). The slowest module is ${slowest.id}, with ${slowest.capacityBps.toFixed(2)} bps in the long run.`;
  const stand = standstill(spec);
  if (rough.flowBps === 0 && stand !== undefined) return [`${stand}. Add balls, or let it start at fewer.`];
  if (!loop) {
    const overloaded = rough.modules.filter(({ inflowBps, capacityBps }) => inflowBps > capacityBps);
    const pile = overloaded.map(
      ({ id, inflowBps, capacityBps }) =>
        `Balls pile up in front of ${id}: ${formatNumber(inflowBps)} bps come and ${formatNumber(capacityBps)} bps pass, so its basket gains ${formatNumber((inflowBps - capacityBps) * 60)} balls a minute.`,
    );
    return [flow, ...pile];
  }
  const lap = `A lap takes about ${formatSeconds(rough.freeLapSeconds)} when nothing stops, so about ${formatNumber(rough.ballsOnTheMove)} balls are on the move.`;
  const surplus =
    rough.surplusBalls >= 1
      ? ` The other ${formatNumber(rough.surplusBalls)} wait in front of ${slowest.id}.`
      : ' There is no surplus: more balls would flow more.';
  const most =
    rough.mostBalls === Infinity
      ? `The basket of ${slowest.id} cannot overflow.`
      : `Up to about ${rough.mostBalls} balls the loop carries; above that the basket of ${slowest.id} ${FULL_WORDS[spec.modules[rough.slowest]?.basket.whenFull.kind ?? 'spill']} even on a good day.`;
  const lock = mayLock(spec);
  return [
    flow,
    lap + surplus,
    most,
    ...(stand === undefined ? [] : [`${stand}.`]),
    ...(lock === undefined ? [] : [`${lock}. Keep fewer balls, or let one basket spill.`]),
  ];
}

/** What a full basket does. */
const FULL_WORDS = { spill: 'spills', back_up: 'backs up', return: 'returns balls' } as const;

/** Balls that leak and that nobody picks up are missing soon. */
function leakSentence({ spec }: Scenario, rough: RoughCut): string[] {
  const perHour = 3600 * rough.flowBps * sum(spec.modules.map(({ leak }) => leak));
  if (perHour === 0 || spec.crew.sweep) return [];
  return [
    `About ${formatNumber(perHour, { digits: 2 })} balls an hour leak to the floor at first, and nobody picks them up: there is no sweep in the crew section.`,
  ];
}

function moduleTable({ spec }: Scenario, rough: RoughCut): string {
  const head = ['module', 'bps', 'running', 'stops/h', 'floods after', 'type 1'];
  const rows = rough.modules.map((module, m) => [
    `${module.id}${m === rough.slowest ? ' (slowest)' : ''}`,
    module.capacityBps.toFixed(2),
    `${(100 * module.availability).toFixed(1)} %`,
    module.stopsPerHour.toFixed(2),
    floods(module, spec, m),
    module.type1.length === 0 ? 'yes' : 'no',
  ]);
  return table(head, rows);
}

function floods({ floodsAfterSeconds }: ModuleRoughCut, { modules, supply }: LoopSpec, m: number): string {
  const { capacity = 0, whenFull } = modules[m]?.basket ?? {};
  if (capacity === Infinity) return 'never';
  if (whenFull?.kind === 'return') return 'returns';
  if (whenFull?.kind === 'back_up' && (m > 0 || supply.kind === 'charge')) return 'backs up';
  if (floodsAfterSeconds > 0 && floodsAfterSeconds < 10) return 'nearly full';
  return floodsAfterSeconds === 0
    ? 'full already'
    : floodsAfterSeconds === Infinity
      ? 'never'
      : formatSeconds(floodsAfterSeconds);
}

function conformity({ modules }: RoughCut): string {
  const departing = modules.filter(({ type1 }) => type1.length > 0);
  if (departing.length === 0)
    return 'All modules conform to the type 1 interface standard (1 bps, batches of at most 30, a basket for 30).';
  const lines = departing.map(({ id, type1 }) => listLine(`${id}: ${type1.join('; ')}`));
  return [
    wrap('Not as the type 1 interface standard asks (1 bps, batches of at most 30, a basket for 30):'),
    ...lines,
  ].join('\n');
}

/** What the minders are asked for, and when nobody is there. */
function crewSentences({ spec }: Scenario, rough: RoughCut): string[] {
  const most = Math.max(...spec.crew.duty.map(({ minders }) => minders));
  const gap = unattended(spec);
  if (rough.mindersBusy === 0) return [];
  const ask = `Stops and sweeping keep ${formatNumber(rough.mindersBusy, { digits: 2 })} minders busy on average; ${most} at most ${most === 1 ? 'is' : 'are'} on duty.`;
  const wait =
    rough.mindersBusy > 0.6 * most ? ' Stops will have to wait, longer than is reckoned here.' : '';
  return [
    ask + wait,
    ...(gap === undefined ? [] : [`${gap}: a module that needs a minder then stays stopped.`]),
  ];
}

/** What these figures leave out. */
function closing({ spec }: Scenario, { run }: CheckHints): string {
  const { modules, supply, crew } = spec;
  const left = [
    'chance',
    'waiting for minders',
    ...(modules.some(({ leak }) => leak > 0) ? ['leaks'] : []),
    ...(modules.some(({ stops }) => stops.some(({ crowded }) => crowded)) ? ['crowding'] : []),
    ...(modules.some(({ stops }) => stops.some(({ trigger }) => trigger.kind === 'at'))
      ? ['planned stops']
      : []),
    ...(modules.some(({ basket }) => basket.whenFull.kind !== 'spill') ? ['backing up and returning'] : []),
    ...(modules.some(({ pull }) => pull) ? ['pulling'] : []),
    ...(modules.some(({ lever }) => lever) ? ['levers'] : []),
    ...(supply.kind === 'charge' && crew.topUp ? ['topping up'] : []),
  ];
  return `Left out of all this: ${left.join(', ')}. A real loop flows less and stands fuller; ${run} shows how much.`;
}

const FORMULAS = [
  'Formulas',
  '  bps           batch x catch / mean cycle x running',
  '  running       1 / (1 + sum over causes of stops per running second x mean stop)',
  '                mean stop = notice + walk + clear, or the time it frees itself',
  '  stops/h       3600 x stops per running second x running',
  '  flow          loop: the largest X with X <= bps of the slowest and X x lap <= balls',
  '                chain: the smaller of the feed and the slowest',
  '  lap           sum over modules of cycle + travel + wait for the next pick',
  '                + wait for the turn within a batch',
  '                next pick: half a cycle (continuous), (start_at - 1) / 2X (demand)',
  '                turn: (arriving batch / own batch - 1) / 2 cycles',
  '  on the move   X x lap; surplus = balls - on the move, in front of the slowest',
  '  carries       basket of the slowest + X x lap elsewhere',
  '  floods after  (basket - balls usually in it) / balls per second that come',
  '  held up after (basket + run-out - balls usually in both) / balls per second',
  '  minders busy  sum over causes of stops per second x (walk + clear), and sweeping',
].join('\n');

function count(n: number, what: string): string {
  return `${n} ${what}${n === 1 ? '' : 's'}`;
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
