import { fileURLToPath } from 'node:url';
import { type LoopSpec, loadScenarioFile } from '@lapwright/sim-core';

/** The loop of one of the files in the folder scenarios. */
export function scenarioSpec(name: string): LoopSpec {
  return loadScenarioFile(fileURLToPath(new URL(`../../../../scenarios/${name}.yaml`, import.meta.url))).spec;
}
