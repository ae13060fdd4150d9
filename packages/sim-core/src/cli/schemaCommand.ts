import { answerSchema } from '../answers/index.js';
import { runResultSchema } from '../experiments/runResultSchema.js';
import { scenarioSchema } from '../scenario/index.js';
import { EXIT, type ExitCode } from './exitCode.js';

const SCHEMAS = { scenario: scenarioSchema, result: runResultSchema, answer: answerSchema } as const;

/** `lapwright schema`: prints a published JSON Schema. */
export function schemaCommand(which: keyof typeof SCHEMAS): ExitCode {
  process.stdout.write(`${JSON.stringify(SCHEMAS[which](), null, 2)}\n`);
  return EXIT.ok;
}
