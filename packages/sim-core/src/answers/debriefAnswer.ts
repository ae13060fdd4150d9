import { byBuilder, type ModuleDebrief } from '../debrief/index.js';
import { listing } from '../findings/index.js';
import type { MendFirst, MendGain } from '../studies/index.js';
import { formatSeconds } from '../units/index.js';
import type { AnswerParts, AnswerTable } from './answer.js';
import { capital, measureWords } from './measureWords.js';
import type { IntervalsPicture } from './picture.js';

/** Lines of a picture. */
const MOST = 24;

/** What the words need to know besides what was logged. */
export interface DebriefContext {
  /** What is told of: a name of the show, or of the file. */
  readonly name: string;
  /** What mending would bring, from simulated shows; null when there was no file to simulate. */
  readonly gains: MendFirst | null;
}

/** A page for a builder: sentences, module by module. */
export interface BuilderPage {
  /** Null for modules of which nobody knows whose they are. */
  readonly builder: string | null;
  readonly sentences: readonly string[];
  readonly modules: readonly { readonly module: string; readonly sentences: readonly string[] }[];
}

/**
 * A show told afterwards: one page for the club, and one for each builder under `details.pages`.
 *
 * @example
 * debriefAnswer([], { name: 'Saturday', gains: null }).verdict // => 'nothing was logged'
 */
export function debriefAnswer(modules: readonly ModuleDebrief[], context: DebriefContext): AnswerParts {
  // One that never ran has stops, but no rate.
  const drawn = modules.filter(({ stops, stops_per_hour: rate }) => stops > 0 && rate !== null);
  const often = modules.filter(({ among_others: among }) => among === 'more often');
  const pages = byBuilder(modules).map((one): BuilderPage => pageOf(one.builder, one.modules, context));
  return {
    question: 'debrief',
    title: `${context.name}: after the show`,
    verdict:
      modules.length === 0 ? 'nothing was logged' : often.length > 0 ? 'some stand out' : 'none stands out',
    sentence: sentence(modules, often),
    because: because(modules, context),
    pictures: drawn.length === 0 ? [] : [picture(modules)],
    tables: modules.length === 0 ? [] : [table(modules, context)],
    sure: sure(modules, context),
    next: next(modules, context),
    details: {
      modules,
      gains: context.gains?.modules ?? null,
      gains_on: context.gains?.on ?? null,
      pages,
    },
  };
}

function sentence(modules: readonly ModuleDebrief[], often: readonly ModuleDebrief[]): string {
  if (modules.length === 0) return 'No module was watched: there is nothing to tell.';
  const stops = total(modules, ({ stops: count }) => count);
  if (stops === 0)
    return `No stop was written down of ${count(modules.length, 'module')}, in up to ${time(Math.max(...modules.map(({ watched_s: watched }) => watched)))} of watching.`;
  const spilled = total(modules, ({ spilled: balls }) => balls);
  const stood = total(modules, ({ stopped_s: seconds }) => seconds);
  const stopping = modules.filter((one) => one.stops > 0).length;
  const names = listing(
    often.toSorted((a, b) => b.stops - a.stops).map(({ module }) => module),
    4,
  );
  return `${count(stops, 'stop')} of ${stopping} of ${count(modules.length, 'module')} ${stops === 1 ? 'was' : 'were'} written down; the modules stood still for ${time(stood)} together${spilled > 0 ? `, and ${count(spilled, 'ball')} fell` : ''}. ${
    often.length === 0
      ? modules.length === 1
        ? 'There is no other to hold it against.'
        : 'None stops more often than the others for sure.'
      : `${names} ${often.length === 1 ? 'stops' : 'stop'} more often than the others for sure.`
  }`;
}

function because(modules: readonly ModuleDebrief[], { gains }: DebriefContext): string[] {
  const worse = modules.filter(({ trend }) => trend === 'more often').map(({ module }) => module);
  const first = surely(gains?.modules ?? []);
  const [best] = first;
  return [
    ...(worse.length === 0
      ? []
      : [
          `Stops of ${listing(worse, 6)} came closer together towards the end: look for what warms up, loosens or wears.`,
        ]),
    ...(gains === null || best === undefined
      ? []
      : [
          `What mending would bring, by simulation: ${listing(
            first.map(({ id }) => id),
            3,
          )} first. If ${best.id} never stopped, ${gainWords(gains, best)}.`,
        ]),
  ];
}

/** Those whose gain is for sure above nothing, best first. */
function surely(gains: readonly MendGain[]): MendGain[] {
  return gains.filter(({ gain, dropped_after: dropped }) => dropped === null && (gain.low ?? 0) > 0);
}

function gainWords({ on }: MendFirst, { gain }: MendGain): string {
  const words = measureWords(on);
  return `${words.title} would ${words.measure.better === 'more' ? 'rise' : 'fall'} by ${words.estimate(gain)}, ${gain.replications} shows`;
}

function table(modules: readonly ModuleDebrief[], { gains }: DebriefContext): AnswerTable {
  const words = gains === null ? undefined : measureWords(gains.on);
  const named = modules.some(({ builder }) => builder !== null);
  return {
    title: 'Module by module',
    head: [
      'module',
      ...(named ? ['builder'] : []),
      'running',
      'stops',
      'stops per hour',
      '95 % interval',
      'stood still',
      'balls spilled',
      'against the others',
      ...(words === undefined ? [] : [`gain if it never stopped: ${words.title}`, '95 % interval']),
    ],
    rows: modules
      .toSorted((a, b) => b.stopped_s - a.stopped_s)
      .map((one) => {
        const gain = gains?.modules.find(({ id }) => id === one.module)?.gain;
        return [
          one.module,
          ...(named ? [one.builder ?? 'not known'] : []),
          time(one.running_s),
          String(one.stops),
          rate(one.stops_per_hour?.rate),
          limits(one),
          one.stopped_s === 0 ? '' : time(one.stopped_s),
          one.spilled === 0 ? '' : String(one.spilled),
          one.among_others === 'cannot be told' ? '' : one.among_others,
          ...(words === undefined
            ? []
            : gain === undefined
              ? ['', '']
              : [words.mean(gain), words.interval(gain)]),
        ];
      }),
  };
}

function picture(modules: readonly ModuleDebrief[]): IntervalsPicture {
  const rows = modules
    .flatMap((one) =>
      one.stops_per_hour === null || one.stops === 0 ? [] : [{ one, found: one.stops_per_hour }],
    )
    .toSorted((a, b) => b.found.rate - a.found.rate)
    .slice(0, MOST)
    .map(({ one, found }) => ({
      label: one.module,
      mean: found.rate,
      low: found.low,
      high: found.high,
      chosen: one.among_others === 'more often',
    }));
  const off = rows.filter(({ chosen }) => chosen).map(({ label }) => label);
  return {
    shape: 'intervals',
    id: 'stops',
    title: 'How often each module stops',
    caption: `Stops per running hour with the exact 95 % interval; the wider the bar, the less is known. ${off.length === 0 ? 'None stands out for sure.' : `${listing(off, 6)}: for sure more often than the others.`}`,
    axis: 'stops while running',
    kind: 'perHour',
    rows,
    lines: [],
  };
}

function sure(modules: readonly ModuleDebrief[], { gains }: DebriefContext): string[] {
  if (modules.length === 0) return [];
  return [
    'Stops are counted per hour of running; their 95 % intervals are the exact ones of a Poisson count (Garwood), and where none was seen the exact upper limit.',
    `A module stands out when its share of all stops cannot be luck: exact binomial limits at a level divided by ${modules.length}, so that among modules all alike none is named in 19 of 20 shows.`,
    'Whether stops came closer together is told from five stops on (Laplace), module by module: of many modules one may seem to by luck.',
    ...(gains === null
      ? ['What mending would bring needs the scenario of the show: name it behind the logs with --loop.']
      : [
          'What mending brings is reckoned with the figures of the file, with the same luck show by show; two at once do not bring the sum.',
        ]),
    'What nobody wrote down did not happen here.',
  ];
}

function next(modules: readonly ModuleDebrief[], { gains }: DebriefContext): string[] {
  const [best] = surely(gains?.modules ?? []);
  const open = modules.filter((one) => one.stops > 0 && one.among_others === 'cannot be told');
  return [
    ...(best === undefined
      ? []
      : [
          `Begin with ${best.id}: mend it, keep a log of an hour on the bench (npx lapwright log-template bench), and see with npx lapwright fit LOG how often it stops now.`,
        ]),
    ...(modules.length > 0 && best === undefined && open.length > 0
      ? ['Join the logs of several shows: with more hours the intervals become narrower.']
      : []),
  ];
}

function pageOf(
  builder: string | null,
  modules: readonly ModuleDebrief[],
  context: DebriefContext,
): BuilderPage {
  const stops = total(modules, ({ stops: count }) => count);
  const whose = builder === null ? (['This', 'These'] as const) : (['Your', 'Your'] as const);
  return {
    builder,
    sentences: [
      stops === 0
        ? `${modules.length === 1 ? `${whose[0]} module was` : `${whose[1]} ${modules.length} modules were`} not seen to stop.`
        : `${modules.length === 1 ? `${whose[0]} module` : `${whose[1]} ${modules.length} modules`}: ${count(stops, 'stop')} written down, ${time(total(modules, ({ stopped_s: seconds }) => seconds))} stood still in all.`,
    ],
    modules: modules.map((one) => ({ module: one.module, sentences: moduleSentences(one, context) })),
  };
}

/** What a builder is told of a module, fair about small numbers. */
function moduleSentences(one: ModuleDebrief, { gains }: DebriefContext): string[] {
  const { stops, running_s: running, stops_per_hour: found, another_day: again } = one;
  const gain = gains?.modules.find(({ id }) => id === one.module);
  return [
    found === null
      ? 'It never ran while somebody watched.'
      : stops === 0
        ? `No stop in ${time(running)} of running. That is good, and no proof: it may stop up to ${rate(found.high)} times an hour (95 % sure).`
        : `${capital(count(stops, 'stop'))} in ${time(running)} of running: ${rate(found.rate)} per hour (95 % interval: ${limits(one)}).`,
    ...(stops === 0
      ? []
      : [
          `${one.causes.map(({ cause, stops: own, stopped_s: stood }) => `${cause}: ${own} times, ${time(stood)} in all`).join('; ')}. The longest took ${time(one.longest_s)}${one.open === 0 ? '' : `; ${count(one.open, 'stop')} not cleared before it was taken out or watching ended`}.`,
        ]),
    ...(one.spilled === 0
      ? []
      : [
          `${capital(count(one.spilled, 'ball'))} fell from its basket${one.spilled_while_stopped === 0 ? '' : `, ${one.spilled_while_stopped} of them while it stood still`}.`,
        ]),
    ...(stops === 0
      ? []
      : [`Nothing changed, ${again.low} to ${again.high} stops on another such day would be no surprise.`]),
    ...(one.trend === null
      ? []
      : [
          `The stops came ${one.trend} towards the end; by luck alone that happens in ${chance(one.trend_chance)} of cases.`,
        ]),
    among(one),
    ...(gain === undefined || gains === null ? [] : [mended(gains, gain)]),
  ];
}

function among({ among_others: found, stops }: ModuleDebrief): string {
  if (found === 'more often')
    return 'It stops more often than the other modules, more than luck would explain.';
  if (found === 'less often')
    return 'It stops less often than the other modules, more than luck would explain.';
  return stops < 5
    ? 'With so few stops it cannot be told from the other modules.'
    : 'It cannot be told from the other modules.';
}

function mended(gains: MendFirst, { gain, dropped_after: dropped }: MendGain): string {
  const words = measureWords(gains.on);
  if (dropped !== null)
    return `Mended for good it would change little for the whole loop, by simulation (${dropped} shows).`;
  if ((gain.low ?? 0) > 0)
    return `If it never stopped, ${words.title} of the whole loop would ${words.measure.better === 'more' ? 'rise' : 'fall'} by ${words.estimate(gain)}, by simulation (${gain.replications} shows).`;
  return `What the loop would gain if it never stopped cannot be told from ${gain.replications} simulated shows.`;
}

function limits({ stops_per_hour: found, stops }: ModuleDebrief): string {
  if (found === null) return '';
  return stops === 0 ? `up to ${rate(found.high)}` : `${rate(found.low)} to ${rate(found.high)}`;
}

function rate(value: number | undefined): string {
  if (value === undefined) return '';
  return value === 0
    ? '0'
    : value < 0.1
      ? value.toPrecision(1)
      : value < 10
        ? value.toFixed(1)
        : value.toFixed(0);
}

function time(seconds: number): string {
  return formatSeconds(seconds, { decimals: 0 });
}

function count(number: number, one: string): string {
  return `${number} ${one}${number === 1 ? '' : 's'}`;
}

function chance(share: number | null): string {
  return share === null ? '' : `${Number((100 * share).toPrecision(1))} %`;
}

function total(modules: readonly ModuleDebrief[], of: (one: ModuleDebrief) => number): number {
  return modules.reduce((sum, one) => sum + of(one), 0);
}
