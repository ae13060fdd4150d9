/** A piece of JSON Schema, draft 2020-12. */
export type Schema = Readonly<Record<string, unknown>>;

export const whole: Schema = { type: 'integer', minimum: 0 };
export const number: Schema = { type: 'number' };
export const numberOrNull: Schema = { type: ['number', 'null'] };
export const text: Schema = { type: 'string' };
export const flag: Schema = { type: 'boolean' };
export const estimate: Schema = { $ref: '#/$defs/estimate' };

/** A list of things of one kind. */
export function listOf(items: Schema): Schema {
  return { type: 'array', items };
}

/** A group in which every property must be there but the optional ones, and nothing else. */
export function group(
  properties: Readonly<Record<string, Schema>>,
  optional: readonly string[] = [],
): Schema {
  const required = Object.keys(properties).filter((name) => !optional.includes(name));
  return { type: 'object', properties, required, additionalProperties: false };
}

/** What `estimate` refers to: it belongs under $defs. */
export const ESTIMATE_SCHEMA: Schema = {
  description:
    'Mean over replications with its interval; null where there was nothing to measure, or no interval.',
  ...group({
    mean: numberOrNull,
    low: numberOrNull,
    high: numberOrNull,
    confidence: number,
    replications: whole,
  }),
};
