import { briefPhrase, estimatePhrase, intervalPhrase } from '../findings/index.js';
import type { Estimate } from '../statistics/index.js';
import type { Inline, JudgedLoop, RuleCheck, ToleratedStops } from '../studies/index.js';
import { formatShare } from '../units/index.js';
import { alikeNotes, rareShare } from './alikeWords.js';
import type { AnswerParts } from './answer.js';
import { benchAdvice, doubtSentences, doubtSure, doubtTables, toldInDoubt } from './doubtWords.js';
import { inlinePictures } from './inlinePictures.js';
import { inlineTables } from './inlineTables.js';
import { measureWords } from './measureWords.js';
import { figureAgainstLimit, ruleWords } from './ruleWords.js';
import { mostStopsPhrase, rateWords } from './stopsPerHour.js';

/** What the question was asked with, each part as it is typed into a shell. */
export interface InlineTyped {
  readonly file: string;
  /** Rules, changes and the spare: `--rule spills_per_hour=80`. */
  readonly options: string;
  /** Where it may go: `--after mill`; empty for where it is, or from the side table anywhere. */
  readonly place: string;
  /** Whether it stands in the loop of the file. */
  readonly inLoop: boolean;
  /** How many balls its basket holds. */
  readonly holds?: number;
}

const TYPED: InlineTyped = { file: 'loop.yaml', options: '', place: '', inLoop: true };

/**
 * Whether a module may go inline, in words, figures and pictures.
 *
 * @param name of the scenario
 * @param leftOut places of the loop that it cannot stand in, in words
 * @param typed what the question was asked with, for commands to try next
 * @example
 * const study = new Study({ seed: 1, source: showsHere() });
 * const [quick, slow] = exampleLoop.modules;
 * const without = { ...exampleLoop, modules: [quick], supply: { kind: 'charge', placed: [20] } };
 * const asked = { module: 'slow', places: [{ label: 'where it is', spec: exampleLoop }], now: 0, without, standIn: plainChuteFor(slow) };
 * inlineAnswer('Example', await inline(study, asked, { rules: houseRules({ least_throughput: 0.5 }), replications: 3 })).verdict // => 'inline'
 */
export function inlineAnswer(
  name: string,
  atTheirWord: Inline,
  leftOut: readonly string[] = [],
  typed: InlineTyped = TYPED,
): AnswerParts {
  const found = { ...atTheirWord, with_it: toldInDoubt(atTheirWord) };
  const { module, with_it: own, stops } = found;
  return {
    question: 'inline',
    title: `${name}: ${module}, inline or not`,
    verdict: own.verdict,
    sentence: [
      verdictSentence(found),
      ...(stops === null || notToBlame(found) ? [] : [stopsSentence(found, stops)]),
    ].join(' '),
    because: [...doubtSentences(atTheirWord), ...placeSentences(found), besideSentence(atTheirWord)],
    pictures: inlinePictures(atTheirWord),
    tables: [...inlineTables(atTheirWord), ...doubtTables(atTheirWord)],
    sure: sure(found, leftOut),
    next: next(found, typed),
    details: { ...atTheirWord, left_out: leftOut },
    ...(found.doubt !== null && { counts_kept: true }),
  };
}

function decisive({ rules, decides }: JudgedLoop): RuleCheck {
  return rules.find((rule) => rule.name === decides) as RuleCheck;
}

/** Number of the rule that decides, in the order of the rules. */
function decisiveIndex({ rules, decides }: JudgedLoop): number {
  return rules.findIndex(({ name }) => name === decides);
}

/** Whether the loop breaks the rule that decides without the module too, and not for sure less. */
function notToBlame({ with_it: own, without_it: without }: Inline): boolean {
  const i = decisiveIndex(own);
  const { low, high } = without.differences[i] ?? { low: null, high: null };
  const sure = low !== null && high !== null && (low > 0 || high < 0);
  return own.verdict === 'side table' && without.rules[i]?.verdict === 'broken' && !sure;
}

function verdictSentence(found: Inline): string {
  const { module, place, with_it: own, without_it: without } = found;
  const rule = decisive(own);
  const figure = figureAgainstLimit(rule, rule.estimate);
  const where = `with ${module} ${place},`;
  switch (own.verdict) {
    case 'inline':
      return own.rules.length === 1
        ? `Inline: ${where} ${figure}.`
        : `Inline: ${where} ${own.rules.length === 2 ? 'both' : `all ${own.rules.length}`} rules of the house are kept. Nearest to its limit: ${figure}.`;
    case 'side table':
      if (notToBlame(found)) {
        const i = decisiveIndex(own);
        const { kind } = ruleWords(rule.name);
        const instead = without.rules[i] as RuleCheck;
        return `The loop breaks this rule with or without ${module}: ${where} ${figure}; without it the figure is ${briefPhrase(instead.estimate, kind)}, and that is not for sure another one (difference, 95 % interval: ${intervalPhrase(without.differences[i] as Estimate, kind)}). By the rules it stays on the side table, but ${module} is not to blame.`;
      }
      return `Side table: ${where} ${figure}.`;
    case 'undecided':
      return `Undecided: ${where} ${figure}.${unmeasured(found, rule)}${own.more_replications === null ? '' : ` It would take about ${own.more_replications} more shows.`}`;
  }
}

/** In how many shows there was nothing to measure of a rule, when there was in others. */
function unmeasured({ replications, doubt }: Inline, { estimate }: RuleCheck): string {
  const shows = doubt === null ? replications : doubt.draws * doubt.shows_per_draw;
  const none = shows - estimate.replications;
  if (none === 0 || estimate.mean === null) return '';
  return ` In ${none} of ${shows} shows there was nothing to measure, and such shows do not speak for it.`;
}

function stopsSentence({ with_it: own, confidence }: Inline, stops: ToleratedStops): string {
  const has = `it has ${rateWords(stops.now)}`;
  switch (stops.found) {
    case 'none':
      return 'Even if it never stopped it would not pass: what stands in its way is not its stops.';
    case 'beyond':
      return `It would still pass with ${stops.factor.low} times its stops, and ${has} an hour.`;
    case 'limit': {
      const { mean, high } = stops.stops_per_hour;
      if (mean === null && stops.factor.low === 0)
        return `How many stops it could have was not found; ${has}.`;
      if (mean === 0)
        return `Even without its stops it is not sure to pass${high === null ? '' : `, and with ${rateWords(high)} stops per hour it surely would not`}; ${has}.`;
      const still = own.verdict === 'inline' ? 'would still pass' : 'would pass';
      return `It ${still} with ${mostStopsPhrase(stops.stops_per_hour, confidence)}; ${has}.`;
    }
  }
}

function placeSentences({ search, gain, place }: Inline): string[] {
  if (search === null) return [];
  const words = measureWords(search.measure);
  const others = search.as_good.length - 1;
  const alike =
    others === 0
      ? ''
      : ` By the shows of the search ${others === 1 ? 'one other place' : `${others} other places`} may be just as good.`;
  if (gain === null) return [`Best place of ${search.places.length}: ${place}.${alike}`];
  const { low, high } = gain.difference;
  const sure = low !== null && high !== null && (low > 0 || high < 0);
  const than = `${gain.against} (${words.title}: ${words.brief(gain.there)}, difference ${words.interval(gain.difference)}, by shows that the search did not use)`;
  return [
    sure
      ? `Best place of ${search.places.length}: ${place}. Held against the place ${than}.${alike}`
      : `Best place of ${search.places.length}, as far as can be told: ${place}. It is not for sure better than the place ${than}.${alike}`,
  ];
}

function besideSentence({ with_it: own, without_it: without, with_stand_in: instead }: Inline): string {
  const i = decisiveIndex(own);
  const say = ({ label, rules, differences }: JudgedLoop): string => {
    const rule = rules[i] as RuleCheck;
    const { kind } = ruleWords(rule.name);
    return `${label}: ${estimatePhrase(rule.estimate, kind)}, difference ${intervalPhrase(differences[i] as Estimate, kind)}`;
  };
  return `Beside it, with the same luck, in ${ruleWords(own.decides).title}: ${say(without)}; ${say(instead)}.`;
}

function sure(
  {
    with_it: own,
    without_it: without,
    with_stand_in: instead,
    confidence,
    replications,
    search,
    stops,
    doubt,
  }: Inline,
  leftOut: readonly string[],
): string[] {
  const half = formatShare((1 - confidence) / 2);
  const several = own.rules.length > 1;
  const unseen = own.rules.find(({ estimate }) => estimate.low === 0 && estimate.high === null)?.estimate;
  const figuresOf = ({ rules, differences }: JudgedLoop): Estimate[] => [
    ...rules.map(({ estimate }) => estimate),
    ...differences,
  ];
  const simulated = [...(doubt === null ? [own] : []), without, instead].flatMap(figuresOf);
  // All shows of a draw have the same parameters: it is draws that tell what else may be.
  const drawn =
    doubt === null
      ? []
      : figuresOf(own).map((one) => ({ ...one, replications: one.replications / doubt.shows_per_draw }));
  return [
    `"Inline" and "side table" are each wrong with a chance of ${half} at most, over ${doubt === null ? replications : doubt.draws * doubt.shows_per_draw} shows${several ? `; for "side table" each of the ${own.rules.length} rules is held to a wider interval, so that many rules do not make a false alarm likelier` : ''}.`,
    ...(unseen === undefined
      ? []
      : [
          `Not one ball was spilled with it in these shows. How many fall at once cannot be learnt from that; it counts as within a limit above 0 when for sure at most 1 show in 10 sees a ball fall, by the exact binomial limit (Clopper-Pearson), which takes 36 shows without. Here it is at most ${rareShare(unseen)} of shows.`,
        ]),
    ...alikeNotes(simulated),
    ...alikeNotes(drawn, 'draws'),
    ...(search === null
      ? []
      : [
          `The place was looked for in ${search.shows} other shows; all figures of the place found are from shows that the search did not see, so that its luck is not sold as gain. Places were compared by ${measureWords(search.measure).title}${own.rules.length > 1 ? ', whose rule is the tightest over all places' : ''}.${search.overlooks === null ? '' : ` After the first round a place that is better by less than ${measureWords(search.measure).value(search.overlooks, { mean: search.overlooks, low: 0.5 * search.overlooks, high: 1.5 * search.overlooks, confidence, replications: 2 })} may have been overlooked.`}`,
        ]),
    ...(leftOut.length === 0 ? [] : [`Places where it cannot stand were left out: ${leftOut.join(', ')}.`]),
    ...(stops?.found === 'limit'
      ? [
          `The most stops it could have come from ${replications} shows at each of ${stops.points.length} rates, all causes of its stops by chance scaled alike; up to the lower end all rules are kept for sure, from the upper end on one is broken for sure. Stops are counted per public hour in the loop.`,
        ]
      : []),
    ...(doubt === null
      ? ['They say how much the figures would move with other luck, not whether the file is right.']
      : [
          ...doubtSure(doubt),
          'They say how much the figures would move with other luck and other counts, not whether the rest of the file is right.',
        ]),
  ];
}

function next(found: Inline, { file, options, place: typedPlace, inLoop, holds }: InlineTyped): string[] {
  const { module, with_it: own, without_it: without, with_stand_in: instead } = found;
  const { search, stops, replications, place } = found;
  const points: string[] = [];
  const command = (...words: readonly string[]): string =>
    ['npx lapwright', ...words].filter((word) => word !== '').join(' ');
  const again = (where: string): string => command('inline', file, module, where, options);
  const there = place === 'where it is' ? '' : `--${place}`;
  if (found.doubt !== null) points.push(benchAdvice(found.doubt));
  else if (own.verdict === 'undecided') {
    points.push(
      own.more_replications === null
        ? 'The figure lies at the limit: no number of shows would tell. Decide by something else.'
        : `About ${replications + own.more_replications} shows would decide it: ${again(typedPlace)} --replications ${replications + own.more_replications}`,
    );
  }
  const innocent = notToBlame(found);
  const blamed = own.verdict !== 'inline' && !innocent;
  if (blamed && stops?.found === 'limit' && stops.stops_per_hour.low > 0)
    points.push(
      // At its word it is below already: then it is the count that falls short, not the module.
      found.doubt !== null && stops.now < stops.stops_per_hour.low
        ? `Up to ${rateWords(stops.stops_per_hour.low)} stops per hour it passes for sure, its other figures at their word: count until it is sure to have fewer.`
        : `Get ${module} below ${rateWords(stops.stops_per_hour.low)} stops per hour on the bench, and it passes for sure.`,
    );
  if (own.verdict !== 'inline' && without.verdict === 'side table')
    points.push(
      `The loop does not keep the rules without ${module} either: look at what it spills first: ${command('mend-first', file)}`,
    );
  if (own.verdict !== 'inline' && instead.verdict === 'inline')
    points.push(`With ${instead.label} all rules would be kept.`);
  const notItsStops = stops === null || stops.found === 'none' || stops.stops_per_hour.mean === 0;
  if (blamed && notItsStops && holds !== undefined && Number.isFinite(holds))
    points.push(
      `${stops === null ? 'See' : 'Fewer stops alone would not do: see'} what another basket, cycle or batch would do, such as ${again(there)} --set modules.${module}.basket=${Math.ceil(1.5 * holds)}`,
    );
  if (search === null && blamed) points.push(`Another place may do better: ${again('--anywhere')}`);
  if (own.verdict === 'inline' && search !== null && place !== 'where it is')
    points.push(
      `What it does to the whole loop there: ${command('compare', file, inLoop ? '--move' : '--with', module, there)}`,
    );
  return points;
}
