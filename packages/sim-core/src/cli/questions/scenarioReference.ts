import type { ScenarioReference } from '../../answers/index.js';
import type { ChangedScenario } from '../../changes/index.js';
import type { Scenario } from '../../scenario/index.js';
import { countedModules } from '../../studies/index.js';

/**
 * What an answer says of the scenario it is about.
 *
 * @example
 * scenarioReference(askedFile('scenarios/chain-of-five.yaml').scenario).name // => 'Chain of five'
 */
export function scenarioReference(scenario: Scenario | ChangedScenario): ScenarioReference {
  const { name, source } = scenario;
  const counted = countedModules(scenario.spec, scenario.counted ?? []);
  return {
    name,
    file: source.file,
    sha256: source.sha256,
    changes: 'changes' in source ? source.changes : [],
    ...(counted.length > 0 && { counted }),
  };
}
