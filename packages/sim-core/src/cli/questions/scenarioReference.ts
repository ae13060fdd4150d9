import type { ScenarioReference } from '../../answers/index.js';
import type { ChangedScenario } from '../../changes/index.js';
import type { Scenario } from '../../scenario/index.js';

/** What an answer says of the scenario it is about. */
export function scenarioReference(scenario: Scenario | ChangedScenario): ScenarioReference {
  const { name, source } = scenario;
  return {
    name,
    file: source.file,
    sha256: source.sha256,
    changes: 'changes' in source ? source.changes : [],
  };
}
