import type { AnswerParts } from '../../answers/index.js';
import { applyChanges, type Change, type ChangedScenario } from '../../changes/index.js';
import { loadScenarioFile, readScenarioText, type Scenario } from '../../scenario/index.js';
import type { Study } from '../../studies/index.js';

/** A scenario that a question is about, with what it takes to change it further. */
export interface AskedScenario {
  /** As it stands after the changes. */
  readonly scenario: Scenario;
  /** Text of its file. */
  readonly text: string;
  /** Changes that were made to the file. */
  readonly changes: readonly Change[];
}

/** Simulates what a question needs and says what it comes to. */
export type Ask = (study: Study) => Promise<AnswerParts>;

/**
 * The scenario of a file as it stands.
 *
 * @throws InputError when the file cannot be used
 * @example
 * askedFile('scenarios/chain-of-five.yaml').scenario.name // => 'Chain of five'
 */
export function askedFile(file: string): AskedScenario {
  return { scenario: loadScenarioFile(file), text: readScenarioText(file).text, changes: [] };
}

/**
 * The scenario with more changes, after those that were made already.
 *
 * @throws ChangeError with every change that cannot be made
 */
export function changedFurther(
  { scenario, text, changes }: AskedScenario,
  more: readonly Change[],
): ChangedScenario {
  const { file, sha256 } = scenario.source;
  const found = applyChanges({ text, file }, [...changes, ...more]);
  // The hash is that of the bytes of the file, of which the text is only the meaning.
  return { ...found, source: { ...found.source, sha256 } };
}
