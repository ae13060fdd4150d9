import type { Found } from '../found.js';

/** A piece of JSON Schema, draft 2020-12. */
export type JsonSchema = { readonly [key: string]: unknown };

/**
 * One kind of value in a scenario file: how to read it, and its JSON Schema for editors. Reading and schema come from
 * the same declaration, so that they cannot drift apart.
 */
export interface Field<T> {
  readonly schema: JsonSchema;
  /** Reads what stands here; reports every problem in it and gives undefined when it is of no use. */
  readonly read: (found: Found) => T | undefined;
}

/** What a field reads. */
export type Read<F> = F extends Field<infer T> ? T : never;
