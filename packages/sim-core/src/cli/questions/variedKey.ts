import { type Change, changedDraft, ChangeError, valueWords } from '../../changes/index.js';
import type { Scenario } from '../../scenario/index.js';
import { around, type Varied } from '../../studies/index.js';
import { argumentFault } from './argumentFault.js';
import { type AskedScenario, changedFurther } from './askedScenario.js';
import { numberWithUnit, typedGrid, type TypedValues } from './gridOptions.js';
import { typedChange } from './typedChange.js';

/**
 * Any key of the file that is a number, with or without a unit.
 *
 * @throws InputError when it is none, or nothing is said of it and no values were typed; ChangeError when there is no such
 *   key
 */
export function variedKey(asked: AskedScenario, key: string, typed: TypedValues | undefined): Varied {
  const { scenario, text, changes } = asked;
  const changed = (value: string): Scenario =>
    changedFurther(asked, [{ kind: 'set', path: key, value } satisfies Change]);
  const words = valueWords(changedDraft({ text, file: scenario.source.file }, changes), key, scenario);
  const today = words === undefined ? undefined : numberWithUnit(words);
  if (today === undefined && typed === undefined && words === undefined) requireKey(() => changed('1'));
  if (words !== undefined && today === undefined && typed === undefined)
    throw argumentFault(
      key,
      `this is not one number but ${words.slice(0, 80)}`,
      words.startsWith('{')
        ? `Name the number in it, such as ${key}.${
            /^\{\s*([\w-]+:\s*\{?\s*[\w-]+)/
              .exec(words)?.[1]
              ?.replace(/:\s*\{\s*/, '.')
              .replace(/:.*/, '') ?? 'mean'
          }.`
        : 'Name a key whose value is a number.',
      'wrong_type',
    );
  if (today === undefined && typed === undefined)
    throw argumentFault(
      key,
      'the file says nothing of it, so that there is no value to begin with',
      'Say which values to try, such as --values 10,20,30, with their unit if they have one.',
    );
  const unit = typed === undefined || typed.unit === '' ? (today?.unit ?? '') : typed.unit;
  const whole = unit === '' && Number.isInteger(today?.value ?? NaN);
  const value = today?.value ?? 0;
  return {
    thing: { kind: 'key', key, unit },
    now: scenario.spec,
    today: today && today.unit === unit ? value : null,
    want: HANDS.test(key) ? 'most' : 'least',
    grid:
      typed === undefined
        ? around(value, { below: 5, above: 5, min: whole ? 0 : value / 10, whole })
        : typedGrid(typed, { min: -Infinity, whole: false, called: `values of ${key}` }),
    at: (one) => changed(written(one, unit)).spec,
    changes: (one) => [typedChange({ kind: 'set', path: key, value: written(one, unit) })],
  };
}

/** Times that hands take, or come back after: what costs is to shorten them. */
const HANDS = /(?:^|\.)(?:notice|walk|takes|clear|swap|mend|sweep\.every)(?:\.|$)/;

function written(value: number, unit: string): string {
  return unit === '' ? String(value) : `${value} ${unit}`;
}

/** Throws what is wrong with a key that the file does not know; that a value is wrong does not count. */
function requireKey(set: () => unknown): void {
  try {
    set();
  } catch (error) {
    if (error instanceof ChangeError && error.problems.some(({ code }) => code.startsWith('unknown')))
      throw error;
  }
}
