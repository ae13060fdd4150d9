import { runResultSchema } from '../experiments/runResultSchema.js';
import { scenarioSchema } from '../scenario/index.js';
import { EXIT, type ExitCode } from './exitCode.js';

/** `lapwright schema`: prints a published JSON Schema. */
export function schemaCommand(which: 'scenario' | 'result'): ExitCode {
  const schema = which === 'scenario' ? scenarioSchema() : runResultSchema();
  process.stdout.write(`${JSON.stringify(schema, null, 2)}\n`);
  return EXIT.ok;
}
