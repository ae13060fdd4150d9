import { requireParameter } from '../../errors/index.js';
import { type HouseRule, isCertain, MEASURES, measureIndex } from '../../experiments/index.js';
import { fullHours, type LoopSpec, type ModuleCounted, type ModuleSpec } from '../../model/spec/index.js';
import { type Estimate, momentsOf } from '../../statistics/index.js';
import { measureDifference } from '../compare.js';
import { type LookedInDoubt, lookInDoubt } from '../doubt/index.js';
import type { Study } from '../study.js';
import { type System, system } from '../system.js';
import { type HouseJudgement, judge } from './houseVerdict.js';
import { FIRST_SHOWS, type PlaceSearch, SEARCH_FROM, searchPlace } from './placeSearch.js';
import { usedUp } from './ruleCheck.js';
import { stopsByChance, stopsTimes } from './scaledStops.js';
import { CHUTE, inItsPlace } from './standIn.js';
import { type ToleratedStops, toleratedStops } from './toleratedStops.js';

/** A loop with the module in one of the places it may go to. */
export interface InlinePlace {
  /** In words: "where it is", "after cellar-door". */
  readonly label: string;
  readonly spec: LoopSpec;
}

/** What the question is about. */
export interface InlineCase {
  /** Id of the module. */
  readonly module: string;
  /** At least one; the best of several is looked for. */
  readonly places: readonly InlinePlace[];
  /** Number of the place where it stands now; absent when it is on the side table. */
  readonly now?: number;
  /** The loop without it. */
  readonly without: LoopSpec;
  /** What could stand in its place instead. */
  readonly standIn: ModuleSpec;
  /** What figures were counted from, of those that are not to be taken at their word. @default none */
  readonly counted?: readonly ModuleCounted[];
}

export interface InlineOptions {
  readonly rules: readonly HouseRule[];
  /** Shows of each loop that the verdict rests on. */
  readonly replications: number;
  /** Shows to spend on the search for a place, about. @default 130 */
  readonly searchShows?: number;
  /** Draws of what was counted, two shows each; from 20. @default 200 */
  readonly draws?: number;
  /** @default 0.95 */
  readonly confidence?: number;
}

/** The house's judgement of one loop. */
export interface JudgedLoop extends HouseJudgement {
  readonly label: string;
  /** Means of each rule's figure less that of the loop with the module, show by show; empty for that loop itself. */
  readonly differences: readonly Estimate[];
}

/** Whether a module may go inline, where best, and with how many stops. */
export interface Inline {
  readonly module: string;
  /** The place that is judged. */
  readonly place: string;
  readonly confidence: number;
  readonly replications: number;
  readonly with_it: JudgedLoop;
  readonly without_it: JudgedLoop;
  readonly with_stand_in: JudgedLoop;
  /** How places were looked for; null when there was only one. */
  readonly search: PlaceSearch | null;
  /** What the place found is worth, by shows of other luck than the search; null without a search. */
  readonly gain: PlaceGain | null;
  /** Null when the module has no stops that come by chance. */
  readonly stops: ToleratedStops | null;
  /**
   * The loop with the module once more, with what its figures were counted from kept in mind; everything else takes figures
   * at their word. Null when nothing of it was counted.
   */
  readonly doubt: LookedInDoubt | null;
}

/** A place against another one, show by show, on the measure of the search. */
export interface PlaceGain {
  /** The other: where the module is now, or a place in the middle of all that looked. */
  readonly against: string;
  readonly there: Estimate;
  /** Of the place found less the other. */
  readonly difference: Estimate;
}

/** As many as the search for a place takes unless said otherwise. */
const SEARCH_SHOWS = 130;
const CONFIDENCE = 0.95;

/**
 * Judges whether a module may stand in the loop by the rules of the house (see `judge`); looks for the best of its places
 * first, and for the most stops that the rules would stand. The loop without it and with something else in its place are
 * simulated beside it, with the same luck.
 *
 * @throws ParameterError when an option cannot be used
 * @throws SimulationError when a show cannot be simulated
 * @example
 * const study = new Study({ seed: 1, source: showsHere() });
 * const [quick, slow] = exampleLoop.modules;
 * const without = { ...exampleLoop, modules: [quick], supply: { kind: 'charge', placed: [20] } };
 * const rules = houseRules({ least_throughput: 0.5 });
 * const asked = { module: 'slow', places: [{ label: 'where it is', spec: exampleLoop }], now: 0, without, standIn: { ...slow, id: 'spare' } };
 * (await inline(study, asked, { rules, replications: 3 })).with_it.verdict // => 'inline'
 */
export async function inline(study: Study, asked: InlineCase, options: InlineOptions): Promise<Inline> {
  const { rules, replications, confidence = CONFIDENCE } = options;
  const { module, places, now, without, standIn } = asked;
  const check: typeof requireParameter = requireParameter;
  check(rules.length > 0, 'inline', 'rules', rules, 'at least one');
  check(places.length > 0, 'inline', 'places', places, 'at least one');
  check(
    Number.isSafeInteger(replications) && replications >= 2,
    'inline',
    'replications',
    replications,
    'a whole number from 2',
  );
  const systems = places.map(({ label, spec }) =>
    system(`${module} ${label}`, spec, { kind: 'watch', module }),
  );
  const hours = fullHours(without.show);
  const search = systems.length > 1 ? await bestPlace(study, systems, asked, options) : null;
  const best = search?.best ?? 0;
  const place = places[best] as InlinePlace;
  const with_it = systems[best] as System;
  const beside = system(`without ${module}`, without);
  const instead = system(`${named(standIn)} instead of ${module}`, inItsPlace(place.spec, module, standIn));
  const other = search === null ? undefined : otherThan(search, now);
  const against = other === undefined ? undefined : systems[other];
  const all = [with_it, beside, instead, ...(against === undefined ? [] : [against])];
  study.expect(all, replications);
  await study.simulate(all, replications);
  const judged = (label: string, one: System): JudgedLoop => ({
    label,
    ...judge(
      rules,
      (measure) => study.column(one, measure, replications),
      hours,
      confidence,
      (measure) => isCertain(measure, one.spec),
    ),
    differences:
      one === with_it
        ? []
        : rules.map(({ measure }) => pairOf(study, measure, with_it, one, options).difference),
  });
  const own = place.spec.modules.find(({ id }) => id === module) as ModuleSpec;
  const { counted = [] } = asked;
  const { draws } = options;
  const doubt = await lookInDoubt(study, with_it.label, place.spec, counted, {
    rules,
    confidence,
    ...(draws !== undefined && { draws }),
  });
  return {
    module,
    place: place.label,
    confidence,
    replications,
    with_it: judged(`with ${module}`, with_it),
    without_it: judged(`without ${module}`, beside),
    with_stand_in: judged(`${named(standIn)} in its place`, instead),
    search,
    gain:
      search === null || other === undefined || against === undefined
        ? null
        : {
            against: places[other]?.label ?? '',
            ...pairOf(study, search.measure, against, with_it, options),
          },
    stops: stopsByChance(own)
      ? await toleratedStops(study, {
          rules,
          at: (factor) =>
            system(`${module} with ${factor} times the stops`, scaledAt(place.spec, module, factor), {
              kind: 'watch',
              module,
            }),
          replications,
          hours,
          confidence,
        })
      : null,
    doubt,
  };
}

/** As it stands in a sentence: modules and spares have names, a chute has none. */
function named({ id }: ModuleSpec): string {
  return id === CHUTE ? `a ${id}` : id;
}

/** The place that the one found is held against: where it is now, or one in the middle; undefined when it is that itself. */
function otherThan({ best, middling }: PlaceSearch, now: number | undefined): number | undefined {
  const other = now === undefined || now === best ? middling : now;
  return other === best ? undefined : other;
}

async function bestPlace(
  study: Study,
  systems: readonly System[],
  { places, now }: InlineCase,
  options: InlineOptions,
): Promise<PlaceSearch> {
  const { rules, searchShows = SEARCH_SHOWS, confidence = CONFIDENCE } = options;
  study.expect(systems, FIRST_SHOWS, SEARCH_FROM);
  await study.simulate(systems, FIRST_SHOWS, SEARCH_FROM);
  // The rule that is tightest over all places decides between them.
  const used = rules.map((rule) => {
    const seen = systems.flatMap((one) => study.column(one, rule.measure, FIRST_SHOWS, SEARCH_FROM));
    return usedUp(rule, momentsOf(seen).mean);
  });
  const most = Math.max(...used.filter((value) => !Number.isNaN(value)));
  const measure = (rules[used.indexOf(most)] ?? rules[0])?.measure ?? '';
  const better = MEASURES[measureIndex(measure)]?.better ?? 'less';
  return searchPlace(
    study,
    systems,
    places.map(({ label }) => label),
    {
      measure,
      better,
      budget: searchShows,
      confidence,
      certain: systems.every(({ spec }) => isCertain(measure, spec)),
      ...(now !== undefined && { prefer: now }),
    },
  );
}

/** Two loops on one measure over the shows of the verdict. */
function pairOf(
  study: Study,
  measure: string,
  before: System,
  after: System,
  { replications, confidence = CONFIDENCE }: InlineOptions,
): { readonly there: Estimate; readonly difference: Estimate } {
  const pair = measureDifference(
    measure,
    study.column(before, measure, replications),
    study.column(after, measure, replications),
    confidence,
    [before, after].every(({ spec }) => isCertain(measure, spec)),
  );
  return { there: pair.before, difference: pair.difference };
}

function scaledAt(spec: LoopSpec, module: string, factor: number): LoopSpec {
  const modules = spec.modules.map((one) => (one.id === module ? stopsTimes(one, factor) : one));
  return { ...spec, modules };
}
