import type { Change } from './change.js';
import { ChangeError, type ChangeProblem } from './changeError.js';
import { readPath } from './changePath.js';

/** The options of a command line that change a scenario. */
export const CHANGE_OPTIONS = [
  'set',
  'swap',
  'move',
  'without',
  'with',
  'stops-off',
  'after',
  'before',
] as const;

/** One option as it was typed, without its dashes. */
export interface TypedOption {
  readonly option: (typeof CHANGE_OPTIONS)[number];
  readonly value: string;
}

/**
 * Reads changes from options of a command line, in the order in which they were typed. `after` and `before` belong to the
 * `move` or `with` before them.
 *
 * @throws ChangeError with every option that cannot be read
 * @example
 * parseChanges([{ option: 'move', value: 'tipper' }, { option: 'after', value: 'wheel' }]) // => [{ kind: 'move', module: 'tipper', place: { side: 'after', module: 'wheel' } }]
 */
export function parseChanges(options: readonly TypedOption[]): Change[] {
  const problems: ChangeProblem[] = [];
  const changes = options.flatMap((typed, i) => {
    const next = options[i + 1];
    const placing = next?.option === 'after' || next?.option === 'before' ? next : undefined;
    const read = readOption(typed, placing, options[i - 1]);
    if (typeof read !== 'object') return [];
    if ('kind' in read) return read;
    problems.push({ code: 'syntax', path: '', change: `--${typed.option} ${typed.value}`, ...read });
    return [];
  });
  if (problems.length > 0) throw new ChangeError(problems);
  return changes;
}

interface Wrong {
  readonly rule: string;
  readonly hint?: string;
}

/** The change that an option begins; undefined when it only says where the one before goes. */
function readOption(
  { option, value }: TypedOption,
  placing: TypedOption | undefined,
  before: TypedOption | undefined,
): Change | Wrong | undefined {
  switch (option) {
    case 'set':
      return readSet(value);
    case 'swap': {
      const [a, b, ...more] = value.split(',').map((name) => name.trim());
      return a && b && more.length === 0
        ? { kind: 'swap', modules: [a, b] }
        : { rule: 'two modules are needed with a comma between them', hint: 'Such as --swap tipper,wheel.' };
    }
    case 'move':
    case 'with': {
      if (value.trim() === '') return NO_MODULE;
      if (!placing)
        return {
          rule: 'it does not say where the module goes',
          hint: `Write --${option} ${value} --after and the module it comes behind, or --before.`,
        };
      const side = placing.option === 'after' ? 'after' : 'before';
      return { kind: option, module: value.trim(), place: { side, module: placing.value.trim() } };
    }
    case 'after':
    case 'before':
      if (before?.option === 'move' || before?.option === 'with')
        return value.trim() === '' ? NO_MODULE : undefined;
      return {
        rule: `nothing stands before it that goes ${option} ${value || 'a module'}`,
        hint: `Write it right behind --move or --with, as in --move tipper --${option} ${value || 'wheel'}, once for each.`,
      };
    case 'without':
    case 'stops-off':
      return value.trim() === '' ? NO_MODULE : { kind: option, module: value.trim() };
  }
}

const NO_MODULE: Wrong = { rule: 'the name of a module is missing' };

function readSet(text: string): Change | Wrong {
  const sign = text.indexOf('=');
  const hint = 'Such as --set modules.tipper.basket=150.';
  if (sign < 0) return { rule: 'the sign = and a value are missing', hint };
  const path = text.slice(0, sign).trim();
  const read = readPath(path);
  return read.ok ? { kind: 'set', path, value: text.slice(sign + 1).trim() } : { rule: read.rule, hint };
}
