import type { JsonSchema } from './fields/index.js';
import { scenarioSchema } from './scenarioSchema.js';

/** One key of a scenario file, for people. */
export interface ScenarioKey {
  /** Path from the top, names of the author's own choice in angle brackets: `modules.<name>.batch`. */
  readonly path: string;
  readonly doc: string;
  readonly required: boolean;
}

/**
 * Every key a scenario file may have, in the order of the form, with its one sentence of explanation.
 *
 * Keys of templates and spares are those of modules and are not repeated.
 *
 * @example
 * scenarioKeys().find(({ path }) => path === 'show').required // => true
 */
export function scenarioKeys(): ScenarioKey[] {
  const { $defs, ...form } = scenarioSchema();
  const time = ($defs as Readonly<Record<string, JsonSchema>>)['time'] ?? {};
  const times = keysBelow(time, 'any time').map((key) => ({ ...key, required: false }));
  return [...keysBelow(form, ''), ...times];
}

function keysBelow(schema: JsonSchema, path: string): ScenarioKey[] {
  if (path === 'templates' || path === 'spares') return [];
  const variants = schema['anyOf'] as readonly JsonSchema[] | undefined;
  if (variants) return variants.flatMap((variant) => keysBelow(variant, path));
  const items = schema['items'] as JsonSchema | undefined;
  if (items) return keysBelow(items, `${path}[]`);
  const inner = schema['additionalProperties'];
  if (typeof inner === 'object' && inner !== null) return keysBelow(inner as JsonSchema, `${path}.<name>`);
  const properties = (schema['properties'] ?? {}) as Readonly<Record<string, JsonSchema>>;
  const required = (schema['required'] ?? []) as readonly string[];
  return Object.entries(properties).flatMap(([name, value]) => {
    const own = path === '' ? name : `${path}.${name}`;
    const doc = typeof value['description'] === 'string' ? value['description'] : '';
    return [{ path: own, doc, required: required.includes(name) }, ...keysBelow(value, own)];
  });
}
