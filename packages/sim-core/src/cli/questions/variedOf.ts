import { type Change, ChangeError } from '../../changes/index.js';
import type { LoopSpec } from '../../model/spec/index.js';
import { type Scenario, suggest } from '../../scenario/index.js';
import { around, type Grid, tidy, type Varied, withStopRate } from '../../studies/index.js';
import { argumentFault } from './argumentFault.js';
import { type AskedScenario, changedFurther } from './askedScenario.js';
import { type GridOptions, typedGrid, type TypedValues, typedValues, type ValueRule } from './gridOptions.js';
import { typedChange } from './typedChange.js';
import { variedKey } from './variedKey.js';

/** What is varied, with remarks on how. */
export interface VariedFile {
  readonly varied: Varied;
  readonly notes: readonly string[];
}

/** What is to be varied, as typed. */
export interface AskedThing extends GridOptions {
  readonly what: string;
  readonly module?: string;
  /** Every shift by the same number, instead of one number all the time. */
  readonly shifts?: boolean;
  /** What the measure is to keep to; without, what is enough. */
  readonly limit?: string;
}

/** Problems told at once. */
const MOST_PROBLEMS = 100;

const WORDS = ['balls', 'minders', 'basket', 'stops'];

/**
 * Something of a scenario file that is varied, with the values to try.
 *
 * @throws InputError when there is no such thing, or values make no sense; ChangeError when a value that was typed cannot
 *   be had
 */
export function variedOf(asked: AskedScenario, thing: AskedThing): VariedFile {
  const { what, shifts = false, module } = thing;
  const typed = typedValues(thing);
  if (module !== undefined && what !== 'basket' && what !== 'stops')
    throw argumentFault(
      module,
      `"${what}" is not asked of a module`,
      `Leave ${module} out, or write basket ${module} or stops ${module}.`,
    );
  if (shifts && what !== 'minders')
    throw argumentFault('--shifts', `this belongs to minders, not to "${what}"`, 'Leave it out.');
  const found = thingOf(asked, thing, typed);
  const { at, grid } = found.varied;
  // What was typed must be possible; of a grid of our own values that are not are left out.
  if (grid.fixed) requireAll(grid.values, at);
  const possible = (value: number): LoopSpec | undefined => {
    try {
      return at(value);
    } catch (error) {
      if (error instanceof ChangeError) return undefined;
      throw error;
    }
  };
  return { ...found, varied: { ...found.varied, at: possible } };
}

function thingOf(asked: AskedScenario, thing: AskedThing, typed: TypedValues | undefined): VariedFile {
  const { scenario } = asked;
  const { what, module, shifts = false } = thing;
  switch (what) {
    case 'balls':
      return balls(asked, typed);
    case 'minders':
      return shifts ? inShifts(scenario, typed) : minders(asked, typed);
    case 'basket':
      return basket(asked, named(scenario, what, module), typed);
    case 'stops':
      return stops(scenario, named(scenario, what, module), typed, thing.limit !== undefined);
    default:
      if (!what.includes('.') && what !== 'charge')
        throw argumentFault(
          what,
          `it is not known what "${what.slice(0, 60)}" is`,
          `${suggest(what, WORDS)} Or a key of the file with its dots, such as crew.walk.`,
          'unknown_name',
        );
      return { varied: variedKey(asked, what, typed), notes: [] };
  }
}

/** A grid of our own, or the one that was typed. */
function gridOf(typed: TypedValues | undefined, rule: ValueRule, own: () => Grid): Grid {
  if (typed === undefined) return own();
  if (typed.unit !== '' && typed.unit !== 'balls')
    throw argumentFault(
      '--values, --from, --to, --step',
      `${rule.called} have no unit, but "${typed.unit}" was written`,
      'Leave it out.',
      'wrong_unit',
    );
  return typedGrid(typed, rule);
}

function balls(asked: AskedScenario, typed: TypedValues | undefined): VariedFile {
  const { spec } = asked.scenario;
  if (spec.supply.kind === 'feed')
    throw argumentFault(
      'balls',
      'this is an open chain: its balls come from a feed and do not go round',
      'Vary how they come, such as how-many FILE feed.poisson.',
    );
  const today = spec.supply.placed.reduce((sum, placed) => sum + placed, 0);
  const { topUp } = spec.crew;
  const share = (amount: number, value: number): string => String(Math.floor((amount * value) / today));
  return {
    varied: {
      thing: { kind: 'balls' },
      now: spec,
      today,
      want: 'most',
      grid: gridOf(typed, { min: 1, whole: true, called: 'numbers of balls' }, () =>
        around(today, { below: 5, above: 3, min: 1, whole: true }),
      ),
      ...setting(asked, (value) => [
        ['charge', String(value)],
        ...(topUp && today > 0
          ? ([
              ['crew.top_up.below', share(topUp.below, value)],
              ['crew.top_up.up_to', share(topUp.upTo, value)],
            ] as const)
          : []),
      ]),
    },
    notes: [
      ...(topUp && today > 0
        ? ['Topping up begins and ends at the same share of the balls as in the file, whatever their number.']
        : []),
      'Balls are spread evenly over the baskets at the opening.',
    ],
  };
}

function minders(asked: AskedScenario, typed: TypedValues | undefined): VariedFile {
  const { spec } = asked.scenario;
  const { duty } = spec.crew;
  const numbers = new Set(duty.map((one) => one.minders));
  const most = Math.max(...numbers);
  const least = needsMinder(spec) ? 1 : 0;
  return {
    varied: {
      thing: { kind: 'minders' },
      now: spec,
      today: numbers.size === 1 ? most : null,
      want: 'least',
      grid: gridOf(typed, { min: least, whole: true, called: mindersCalled(least) }, () => ({
        values: Array.from({ length: most + 2 }, (_, i) => i + 1),
        step: 1,
        min: least,
        whole: true,
        fixed: false,
      })),
      ...setting(asked, (value) => [['crew.minders', String(value)]]),
    },
    notes:
      numbers.size === 1
        ? []
        : ['The same number is on duty all the time; with --shifts every shift has so many more or fewer.'],
  };
}

/** Whether a stop lasts until a minder has cleared it: with nobody on duty the loop stands for good, and spills nothing. */
function needsMinder({ modules, spares = [] }: LoopSpec): boolean {
  return [...modules, ...spares].some(({ stops: causes }) =>
    causes.some(({ remedy }) => remedy.kind === 'crew'),
  );
}

function mindersCalled(least: number): string {
  return least === 0
    ? 'numbers of minders'
    : 'numbers of minders (some stops last until a minder clears them)';
}

function inShifts(scenario: Scenario, typed: TypedValues | undefined): VariedFile {
  const { spec } = scenario;
  const { duty } = spec.crew;
  const most = Math.max(...duty.map((one) => one.minders));
  const least = (needsMinder(spec) ? 1 : 0) - most;
  if (duty.length < 2)
    throw argumentFault(
      '--shifts',
      'the same number of minders is on duty all the time here',
      'Leave it out.',
    );
  return {
    varied: {
      thing: { kind: 'shifts' },
      now: spec,
      today: 0,
      want: 'least',
      grid: gridOf(typed, { min: least, whole: true, called: 'numbers of minders more' }, () => ({
        values: Array.from({ length: most + 2 }, (_, i) => i + 1 - most),
        step: 1,
        min: least,
        whole: true,
        fixed: false,
      })),
      at: (value) => ({
        ...spec,
        crew: {
          ...spec.crew,
          // Where nobody is on duty there is no shift to add to.
          duty: duty.map((one) => ({
            ...one,
            minders: one.minders === 0 ? 0 : Math.max(0, one.minders + value),
          })),
        },
      }),
    },
    notes: ['So many more or fewer at any time at which somebody is on duty, but never fewer than none.'],
  };
}

function basket(asked: AskedScenario, module: string, typed: TypedValues | undefined): VariedFile {
  const { spec } = asked.scenario;
  const found = spec.modules.find(({ id }) => id === module);
  if (found === undefined)
    throw argumentFault(
      module,
      `${module} does not stand in the loop`,
      `For a spare name the key: how-many FILE spares.${module}.basket.`,
    );
  const { capacity } = found.basket;
  if (capacity === 0)
    throw argumentFault(
      module,
      `${module} has no basket: what comes goes straight into its mechanism`,
      'Name another module, or give it a basket in the file first.',
    );
  if (capacity === Infinity && typed === undefined)
    throw argumentFault(
      module,
      `the basket of ${module} is unlimited, so that there is no size to begin with`,
      'Say which sizes to try, such as --values 50,100,150,200.',
    );
  // A basket for more balls than there are is never full; what was typed is tried all the same.
  const { supply } = spec;
  const charge = supply.kind === 'feed' ? Infinity : supply.placed.reduce((sum, placed) => sum + placed, 0);
  const largest = typed === undefined ? Math.max(2, charge) : Infinity;
  const middle = Math.min(capacity, largest);
  const step = Math.max(1, Math.round(middle / 4));
  const sizes = [-2, -1, 0, 1, 2, 4].map((k) => Math.min(middle + k * step, largest));
  const made = setting(asked, (value) => [[`modules.${module}.basket.balls`, String(value)]]);
  return {
    varied: {
      thing: { kind: 'basket', module },
      now: spec,
      today: capacity === Infinity ? null : capacity,
      want: 'least',
      grid: gridOf(typed, { min: 1, whole: true, called: 'sizes of a basket' }, () => ({
        values: [...new Set(sizes)].filter((size) => size >= 1),
        step,
        min: 1,
        whole: true,
        fixed: false,
      })),
      ...made,
      at: (value) => (value > largest ? undefined : made.at(value)),
    },
    notes:
      charge < Infinity && typed === undefined && largest < middle + 4 * step
        ? [`No basket was tried that holds more than the ${charge} balls of the charge.`]
        : [],
  };
}

function stops(
  { spec }: Scenario,
  module: string,
  typed: TypedValues | undefined,
  hasLimit: boolean,
): VariedFile {
  const found = [...spec.modules, ...(spec.spares ?? [])].find(({ id }) => id === module);
  const causes = found?.stops ?? [];
  if (!causes.some(({ trigger }) => trigger.kind !== 'at'))
    throw argumentFault(
      module,
      causes.length === 0 ? `${module} never stops` : `${module} has planned stops only`,
      `There is nothing to make more or less often: give it a cause under stops: first, such as running: { exponential: { mean: 20 min } }.`,
    );
  return {
    varied: {
      thing: { kind: 'stops', module },
      now: spec,
      today: 1,
      want: 'most',
      grid: gridOf(typed, { min: 0, whole: false, called: 'factors on how often it stops' }, () => ({
        // How much more can be borne: what fewer would bring is what mend-first says. But where as many as now break a
        // limit it is asked how many do not.
        values: [1, 1.25, 1.5, 2, 3],
        step: 1,
        min: hasLimit ? 0 : 1,
        whole: false,
        fixed: false,
      })),
      at: (value) => withStopRate(spec, module, tidy(value)),
    },
    notes: ['All its causes strike so many times as often; planned stops stay as they are.'],
  };
}

/** Sees to it that every value can be had, and tells of all that cannot. */
function requireAll(values: readonly number[], at: Varied['at']): void {
  const problems = values.flatMap((value) => {
    try {
      at(value);
      return [];
    } catch (error) {
      if (error instanceof ChangeError) return error.problems;
      throw error;
    }
  });
  if (problems.length > 0) throw new ChangeError(problems.slice(0, MOST_PROBLEMS));
}

/** The module that was named. */
function named(scenario: Scenario, what: string, module: string | undefined): string {
  const { modules, spares = [] } = scenario.spec;
  const known = [...modules, ...spares].map(({ id }) => id);
  if (module === undefined)
    throw argumentFault(
      what,
      'it does not say of which module',
      `Such as how-many FILE ${what} ${known[0]}.`,
      'missing_key',
    );
  if (known.includes(module)) return module;
  if (scenario.sideTable.some(({ id }) => id === module))
    throw argumentFault(
      module,
      `${module} is on the side table`,
      'Name a module that stands in the loop.',
      'unknown_name',
    );
  throw argumentFault(
    what,
    `there is no module "${module.slice(0, 60)}" here`,
    suggest(module, known),
    'unknown_name',
  );
}

/** Loops made from what is asked about with keys set, and how that is typed. */
function setting(
  asked: AskedScenario,
  keys: (value: number) => readonly (readonly [path: string, value: string])[],
): Pick<Varied, 'at' | 'changes'> {
  const changes = (value: number): Change[] =>
    keys(value).map(([path, typed]) => ({ kind: 'set', path, value: typed }));
  return {
    at: (value) => changedFurther(asked, changes(value)).spec,
    changes: (value) => changes(value).map(typedChange),
  };
}
