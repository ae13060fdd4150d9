import {
  type Change,
  type ChangedScenario,
  ChangeError,
  type ChangeProblem,
  type PlaceBeside,
} from '../../changes/index.js';
import { InputError, type Problem } from '../../errors/index.js';
import { type HouseRule, houseRules } from '../../experiments/index.js';
import { fullHours, type LoopSpec, type ModuleSpec } from '../../model/spec/index.js';
import { HOUSE_RULE_NAMES, suggest } from '../../scenario/index.js';
import { type InlineCase, type InlinePlace, plainChuteFor } from '../../studies/index.js';
import { type AskedScenario, changedFurther } from './askedScenario.js';

/** Where the module may go, as typed; nothing for where it is, or from the side table anywhere. */
export interface WantedPlaces {
  readonly after?: string;
  readonly before?: string;
  readonly anywhere?: boolean;
  /** Behind each of these. */
  readonly places?: readonly string[];
}

/** What is asked, as typed. */
export interface InlineArguments extends WantedPlaces {
  readonly module: string;
  readonly spare?: string;
  /** Changes that are made first. */
  readonly changes: readonly Change[];
  /** Rules that stand instead of those there are. */
  readonly rules: readonly Change[];
  /** All figures at their word, whatever they were counted from. @default false */
  readonly asWritten?: boolean;
}

/** All that the question needs. */
export interface ReadInlineCase {
  readonly scenario: ChangedScenario;
  readonly asked: InlineCase;
  readonly rules: readonly HouseRule[];
  /** Places in which it cannot stand. */
  readonly leftOut: readonly string[];
}

/**
 * Makes the loops that are compared: with the module in each of its places, and without it.
 *
 * @throws InputError when an argument cannot be used: every problem that can be told at once
 */
export function readInlineCase(loop: AskedScenario, args: InlineArguments): ReadInlineCase {
  const scenario = withRules(loop, args);
  const { file } = scenario.source;
  const { spec } = scenario;
  const rules = houseRules(scenario.houseRules ?? {});
  const problems = [
    ...moduleProblems(scenario, args),
    ...ruleProblems(rules, scenario),
    ...spareProblems(scenario, args),
  ];
  if (problems.length > 0) throw new InputError(problems);
  const wrong: ChangeProblem[] = [];
  const changed = (change: Change): ChangedScenario => changedFurther(loop, [...args.changes, change]);
  const order = spec.modules.map(({ id }) => id);
  const inLoop = order.includes(args.module);
  const open = spec.supply.kind === 'feed';
  const { wanted, skip } = wantedPlaces(order, open, args);
  const leftOut: string[] = [];
  const places = wanted.flatMap((place): InlinePlace[] => {
    if (place === undefined || isWhereItIs(order, open, args.module, place))
      return [{ label: 'where it is', spec }];
    const label = `${place.side} ${place.module}`;
    try {
      const kind = inLoop ? 'move' : 'with';
      return [{ label, spec: changed({ kind, module: args.module, place }).spec }];
    } catch (error) {
      if (!(error instanceof ChangeError)) throw error;
      if (skip) leftOut.push(label);
      else wrong.push(...asTyped(error, args));
      return [];
    }
  });
  const without = (): LoopSpec | undefined => {
    try {
      return inLoop ? changed({ kind: 'without', module: args.module }).spec : spec;
    } catch (error) {
      if (!(error instanceof ChangeError)) throw error;
      wrong.push(...asTyped(error, args));
      return undefined;
    }
  };
  const loopWithout = without();
  if (wrong.length > 0 || loopWithout === undefined) throw new ChangeError(wrong);
  const [first] = places;
  if (first === undefined) {
    const hint = 'Ask for one place with --after, and it is told why.';
    throw new InputError([
      {
        code: 'contradiction',
        path: '',
        file,
        rule: `${args.module} cannot stand in any of these places`,
        hint,
      },
    ]);
  }
  const now = places.findIndex(({ label }) => label === 'where it is');
  const own = first.spec.modules.find(({ id }) => id === args.module) as ModuleSpec;
  return {
    scenario,
    rules,
    leftOut,
    asked: {
      module: args.module,
      places,
      ...(now >= 0 && { now }),
      without: loopWithout,
      standIn: standInFor(own, spec.spares ?? [], args.spare),
      ...(args.asWritten !== true && scenario.counted && { counted: scenario.counted }),
    },
  };
}

/** What is wrong with a place, or with the loop without the module, told by what was typed. */
function asTyped(
  { problems }: ChangeError,
  { module, after, before, places, anywhere }: InlineArguments,
): ChangeProblem[] {
  const place =
    after !== undefined
      ? `--after ${after}`
      : before !== undefined
        ? `--before ${before}`
        : places !== undefined
          ? `--places ${places.join()}`
          : anywhere === true
            ? '--anywhere'
            : module;
  return problems.map(({ hint, ...problem }) => {
    const change = /^--(with|move) /.test(problem.change)
      ? place
      : problem.change.startsWith('--without ')
        ? module
        : problem.change;
    // Other commands have options that put modules elsewhere; here one only says where.
    const elsewhere = hint !== undefined && /--(with|move) /.test(hint);
    return {
      ...problem,
      change,
      ...(hint !== undefined && { hint: elsewhere ? 'Name a module that stands in the loop.' : hint }),
    };
  });
}

/** The scenario with the rules that were typed; what is wrong with them is told as they were typed. */
function withRules(loop: AskedScenario, { changes, rules }: InlineArguments): ChangedScenario {
  const typed = (change: string): string => change.replace(/^--set house_rules\./, '--rule ');
  try {
    const scenario = changedFurther(loop, [...changes, ...rules]);
    return { ...scenario, source: { ...scenario.source, changes: scenario.source.changes.map(typed) } };
  } catch (error) {
    if (!(error instanceof ChangeError)) throw error;
    throw new ChangeError(error.problems.map((problem) => ({ ...problem, change: typed(problem.change) })));
  }
}

function moduleProblems(
  { spec, sideTable, source }: ChangedScenario,
  { module }: InlineArguments,
): Problem[] {
  const known = [...spec.modules, ...sideTable].map(({ id }) => id);
  if (known.includes(module)) return [];
  const isSpare = spec.spares?.some(({ id }) => id === module) === true;
  return [
    {
      code: 'unknown_name',
      path: '',
      file: source.file,
      rule: isSpare
        ? `${module} is a spare, and what is described under modules: is asked about here`
        : `there is no module "${module.slice(0, 60)}" here, neither in the loop nor on the side table`,
      hint: isSpare
        ? `Describe it under modules: too, by another name, and leave it out of order:.`
        : suggest(module, known),
    },
  ];
}

function spareProblems({ spec, source }: ChangedScenario, { spare }: InlineArguments): Problem[] {
  const known = (spec.spares ?? []).map(({ id }) => id);
  if (spare === undefined || known.includes(spare)) return [];
  return [
    {
      code: 'unknown_name',
      path: '--spare',
      file: source.file,
      rule: `there is no spare "${spare.slice(0, 60)}" here`,
      hint:
        known.length > 0
          ? suggest(spare, known)
          : 'There is no spare at all: leave --spare out, and a plain chute stands in.',
    },
  ];
}

function ruleProblems(rules: readonly HouseRule[], { spec, source }: ChangedScenario): Problem[] {
  if (rules.length === 0) {
    return [
      {
        code: 'missing_key',
        path: 'house_rules',
        file: source.file,
        rule: 'the house has no rules, so that nothing can be said for or against a module',
        hint: `Write house_rules: { spills_per_hour: 80 } into the file, or add --rule spills_per_hour=80. Rules: ${HOUSE_RULE_NAMES.join(', ')}.`,
      },
    ];
  }
  if (fullHours(spec.show) >= 1 || !rules.some(({ name }) => name === 'overflow_risk')) return [];
  return [
    {
      code: 'contradiction',
      path: 'house_rules.overflow_risk',
      file: source.file,
      rule: 'this is about full public hours, and the show has none',
      hint: 'Lengthen the show, or use spills_per_hour instead.',
    },
  ];
}

/** Undefined stands for where it is. With `skip`, places that turn out not to do are left out. */
function wantedPlaces(
  order: readonly string[],
  open: boolean,
  { module, after, before, anywhere, places }: InlineArguments,
): { readonly wanted: readonly (PlaceBeside | undefined)[]; readonly skip: boolean } {
  const behind = (id: string): PlaceBeside => ({ side: 'after', module: id });
  if (after !== undefined) return { wanted: [behind(after)], skip: false };
  if (before !== undefined) return { wanted: [{ side: 'before', module: before }], skip: false };
  if (places !== undefined) return { wanted: [...new Set(places)].map(behind), skip: false };
  if (anywhere !== true && order.includes(module)) return { wanted: [undefined], skip: false };
  const others = order.filter((id) => id !== module);
  const head = open ? others.slice(0, 1).map((id): PlaceBeside => ({ side: 'before', module: id })) : [];
  return { wanted: [...head, ...others.map(behind)], skip: true };
}

/** Whether a module in the loop already stands there. In a loop the first comes behind the last, in a chain it does not. */
function isWhereItIs(
  order: readonly string[],
  open: boolean,
  module: string,
  { side, module: beside }: PlaceBeside,
): boolean {
  const at = order.indexOf(module);
  const next = at + (side === 'after' ? -1 : 1);
  return at >= 0 && order[open ? next : (next + order.length) % order.length] === beside;
}

/** What stands in its place: the one named, the first that its pull rule names, the first spare, a plain chute. */
function standInFor(own: ModuleSpec, spares: readonly ModuleSpec[], named: string | undefined): ModuleSpec {
  const pulled = own.pull?.spares[0];
  return (
    spares.find(({ id }) => id === named) ??
    (pulled === undefined ? undefined : spares[pulled]) ??
    spares[0] ??
    plainChuteFor(own)
  );
}
