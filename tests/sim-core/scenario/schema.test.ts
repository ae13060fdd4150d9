import { readFileSync, readdirSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { InputError, parseScenario, scenarioSchema } from '../../../packages/sim-core/src/index.js';
import { COUNTED, COUNTED_BREAKS } from './brokenCounted.js';
import { FEATURE_BREAKS, FEATURES } from './brokenFeatures.js';
import { BREAKS, changed, SOUND } from './brokenScenarios.js';

const kept = JSON.parse(readFileSync('packages/sim-core/schema/scenario.schema.json', 'utf8')) as object;
const validate = new Ajv2020({
  strict: true,
  strictRequired: false,
  allowUnionTypes: true,
  allErrors: true,
}).compile(kept);

describe('the published JSON Schema of scenarios', () => {
  it('is the one the program prints (lapwright schema scenario)', () => {
    expect(kept).toEqual(JSON.parse(JSON.stringify(scenarioSchema())));
  });

  it('accepts the sound scenario and every scenario of the project', () => {
    for (const sound of [SOUND, FEATURES, COUNTED])
      expect(validate(parse(sound)), JSON.stringify(validate.errors)).toBe(true);
    for (const file of readdirSync('scenarios').filter((name) => name.endsWith('.yaml'))) {
      expect(
        validate(parse(readFileSync(`scenarios/${file}`, 'utf8'))),
        `${file}: ${JSON.stringify(validate.errors)}`,
      ).toBe(true);
    }
  });

  const ofForm = [...BREAKS, ...FEATURE_BREAKS, ...COUNTED_BREAKS].filter((one) => {
    // Not YAML for an editor either, and then no schema is asked.
    if (one.path === '' || one.to.includes('*big') || one.says.source.includes('same key')) return false;
    try {
      parseScenario(changed(one));
      return false;
    } catch (error) {
      // What loading finds wrong with keys, types and units, an editor with the schema must find too.
      return (
        error instanceof InputError &&
        error.problems.some(({ code }) => ['unknown_key', 'wrong_type', 'wrong_unit'].includes(code))
      );
    }
  });

  it.each(ofForm)('refuses line $line: $to', (one) => {
    expect(validate(parse(changed(one)))).toBe(false);
  });
});
