export { loadScenarioFile, MOST_BYTES } from './loadScenarioFile.js';
export { parseScenario } from './parseScenario.js';
export type { Scenario } from './scenario.js';
export { scenarioSchema } from './scenarioSchema.js';
export { type ScenarioKey, scenarioKeys } from './scenarioKeys.js';
