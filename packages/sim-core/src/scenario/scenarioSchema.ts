import { type JsonSchema, TIME_SCHEMA } from './fields/index.js';
import { scenarioForm } from './form/scenarioForm.js';

/**
 * The JSON Schema (draft 2020-12) of scenario files, for editors that complete and check them.
 *
 * It checks form, not sense: names that refer to nothing, or a charge that does not fit, are found by loading.
 *
 * @example
 * scenarioSchema().required // => ['name', 'show', 'modules']
 */
export function scenarioSchema(): JsonSchema {
  return {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    title: 'Lapwright scenario',
    description: 'A loop or chain of ball-passing modules, its crew and its show.',
    ...scenarioForm.schema,
    $defs: { time: TIME_SCHEMA },
  };
}
