import type { Found } from '../found.js';
import { suggest } from '../nearest.js';
import type { Field, JsonSchema } from './field.js';

/** One key of a group: how its value is read, what it means, and whether it must be there. */
export interface KeySpec<T> {
  readonly field: Field<T>;
  /** One plain sentence, shown by editors. */
  readonly doc: string;
  readonly required?: boolean;
}

/** What a group of keys reads: every key may be missing until `required` has been checked. */
export type GroupRead<K> = { readonly [key in keyof K]?: K[key] extends KeySpec<infer T> ? T : never } & {
  /** Where the group stands, for later checks. */
  readonly found: Found;
};

export interface GroupOptions {
  /** Sets of keys of which exactly one must be given. */
  readonly exactlyOne?: readonly (readonly string[])[];
  /** Sets of keys of which at most one may be given. */
  readonly atMostOne?: readonly (readonly string[])[];
  /** Sets of keys of which at least one must be given. */
  readonly atLeastOne?: readonly (readonly string[])[];
  /** Keys that stand elsewhere and that somebody may well write here, each with a sentence on why not. */
  readonly notHere?: Readonly<Record<string, string>>;
}

/** A group of known keys. Unknown keys, repeated keys and missing keys are reported; all the rest is read on. */
export function group<K extends Readonly<Record<string, KeySpec<unknown>>>>(
  keys: K,
  options: GroupOptions = {},
): Field<GroupRead<K>> {
  const names = Object.keys(keys);
  const { exactlyOne = [], atMostOne = [], atLeastOne = [], notHere = {} } = options;
  return {
    schema: groupSchema(keys, options),
    read(found) {
      if (found.kind !== 'map') return found.wrong('wrong_type', `a group of keys: ${names.join(', ')}`);
      const values: Record<string, unknown> = { found };
      const present = new Set<string>();
      const entries = found.entries();
      for (const [i, { key, at, value }] of entries.entries()) {
        const next = entries[i + 1]?.key ?? '';
        const spec = Object.hasOwn(keys, key) ? keys[key] : undefined;
        if (spec !== undefined && isDecimalComma(value, next)) {
          // "mean: 3,6 s" inside braces reads as mean: 3 and a key "6 s".
          present.add(key);
          value.report(
            'wrong_unit',
            `"${String(value.scalar)},${next}" has a decimal comma`,
            `Write a decimal point: ${String(value.scalar)}.${next}.`,
          );
          continue;
        }
        if (spec === undefined) {
          const afterComma = i > 0 && isDecimalComma(entries[i - 1]?.value, key);
          if (Object.hasOwn(notHere, key))
            at.report('unknown_key', `the key "${key}" does not belong here`, notHere[key]);
          else if (!afterComma)
            at.report('unknown_key', `nothing here is called "${key.slice(0, 60)}"`, () =>
              suggest(key, names),
            );
          continue;
        }
        present.add(key);
        values[key] = spec.field.read(value);
      }
      for (const name of names) {
        if (keys[name]?.required && !present.has(name))
          found.report('missing_key', `the key "${name}" is missing`, keys[name].doc);
      }
      for (const set of [...exactlyOne, ...atMostOne]) {
        const given = set.filter((name) => present.has(name));
        if (given.length > 1)
          found.report('contradiction', `${given.join(' and ')} cannot both be given`, 'Keep one of them.');
      }
      for (const set of [...exactlyOne, ...atLeastOne]) {
        if (!set.some((name) => present.has(name)))
          found.report('missing_key', `one of ${set.join(', ')} is needed`);
      }
      return values as GroupRead<K>;
    },
  };
}

/** A bare whole number, and behind the comma a key that begins with a digit: a number cut in two. */
function isDecimalComma(value: Found | undefined, next: string): boolean {
  return Number.isInteger(value?.scalar) && /^\d/.test(next);
}

function groupSchema(keys: Readonly<Record<string, KeySpec<unknown>>>, options: GroupOptions): JsonSchema {
  const required = Object.entries(keys).flatMap(([name, { required: must }]) => (must ? [name] : []));
  const { exactlyOne = [], atMostOne = [], atLeastOne = [] } = options;
  const rules = [
    ...exactlyOne.map((set) => ({ oneOf: set.map((name) => ({ required: [name] })) })),
    ...atLeastOne.map((set) => ({ anyOf: set.map((name) => ({ required: [name] })) })),
    ...atMostOne.map((set) => ({ not: { required: set } })),
  ];
  return {
    type: 'object',
    properties: Object.fromEntries(
      Object.entries(keys).map(([name, { field, doc }]) => [name, { description: doc, ...field.schema }]),
    ),
    additionalProperties: false,
    ...(required.length > 0 && { required }),
    ...(rules.length > 0 && { allOf: rules }),
  };
}

/** A group of which exactly one key is given. */
export function oneKey<K extends Readonly<Record<string, KeySpec<unknown>>>>(keys: K): Field<GroupRead<K>> {
  return group(keys, { exactlyOne: [Object.keys(keys)] });
}

/** Entries under names of the author's own choice, such as modules. */
export function named<T>(
  what: string,
  field: Field<T>,
  limits: { readonly max: number; readonly example: string },
): Field<readonly { readonly name: string; readonly at: Found; readonly value: T }[]> {
  const rule = 'letters, digits, - and _, beginning with a letter or digit, at most 40 characters';
  return {
    schema: {
      type: 'object',
      propertyNames: { pattern: NAME.source },
      additionalProperties: field.schema,
      maxProperties: limits.max,
      minProperties: 1,
    },
    read(found) {
      if (found.kind !== 'map') {
        return found.wrong(
          'wrong_type',
          `a group of keys, the name of each ${what} with its description`,
          limits.example,
        );
      }
      if (found.size === 0) return found.report('missing_key', `at least one ${what} is needed`);
      if (found.size > limits.max)
        return found.report('out_of_range', `${found.size} entries, at most ${limits.max} are allowed`);
      return found.entries().flatMap(({ key, at, value }) => {
        if (!NAME.test(key))
          at.report(
            'wrong_type',
            `"${key.slice(0, 60)}" cannot be the name of a ${what}`,
            `A name is made of ${rule}.${what === 'module' ? ' The full name can stand in title.' : ''}`,
          );
        // "stops: { per_cycle: 0.001 }": the name has been forgotten.
        if (
          value.kind === 'scalar' &&
          'properties' in field.schema &&
          Object.hasOwn(field.schema['properties'] as object, key)
        ) {
          return (
            at.report(
              'wrong_type',
              `"${key}" is a key of a ${what}, but here its name must stand`,
              limits.example,
            ) ?? []
          );
        }
        const read = field.read(value);
        return read === undefined ? [] : [{ name: key, at, value: read }];
      });
    },
  };
}

const NAME = /^[\p{L}\p{N}][\p{L}\p{N}_-]{0,39}$/u;

/** A list of values of one kind. */
export function listOf<T>(
  field: Field<T>,
  limits: { readonly min: number; readonly max: number },
): Field<readonly T[]> {
  return {
    schema: { type: 'array', items: field.schema, minItems: limits.min, maxItems: limits.max },
    read(found) {
      if (found.kind !== 'list') return found.wrong('wrong_type', 'a list, such as [a, b]');
      if (found.size < limits.min || found.size > limits.max) {
        return found.report(
          'out_of_range',
          `${found.size} items, but from ${limits.min} to ${limits.max} are allowed`,
        );
      }
      return found.items().flatMap((item) => {
        const value = field.read(item);
        return value === undefined ? [] : [value];
      });
    },
  };
}

/** A value that can be written short, as a scalar, or long, as a group or list. */
export function shortOrLong<S, L>(short: Field<S>, long: Field<L>): Field<S | L> {
  return {
    schema: { anyOf: [short.schema, long.schema] },
    read: (found) => (found.kind === 'map' || found.kind === 'list' ? long.read(found) : short.read(found)),
  };
}

/** A value turned into another when it was read; the function may report problems and give undefined. */
export function mapped<A, B>(field: Field<A>, convert: (value: A, found: Found) => B | undefined): Field<B> {
  return {
    schema: field.schema,
    read(found) {
      const value = field.read(found);
      return value === undefined ? undefined : convert(value, found);
    },
  };
}

/** The value of `field`, or one word that stands for a value of its own. */
export function orWord<T>(field: Field<T>, word: string, value: T): Field<T> {
  return {
    schema: { anyOf: [field.schema, { const: word }] },
    read: (found) => (found.scalar === word ? value : field.read(found)),
  };
}
