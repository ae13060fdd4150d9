import type { AnswerParts, ScenarioReference } from '../../answers/index.js';
import { toAnswer } from '../../answers/index.js';
import type { Study } from '../../studies/index.js';
import { EXIT, type ExitCode } from '../exitCode.js';
import { checkOutputPaths } from '../outputPaths.js';
import { type AnswerReportInput, type ChartsPackage, requireCharts } from '../reportWriter.js';
import { writeOutput } from '../writeOutput.js';
import { answerText } from './answerText.js';
import type { QuestionOptions } from './questionOptions.js';
import { sameAgain } from './sameAgain.js';
import { studySession } from './studySession.js';

/** A question as a command asks it. */
export interface AskedQuestion {
  /** The files it is about, in the order in which they were named. */
  readonly scenarios: readonly ScenarioReference[];
  /** Other files that are read, which no output may overwrite. */
  readonly reads?: readonly string[];
  /** All arguments, as typed. */
  readonly args: readonly string[];
  /** Simulates what it needs and says what it comes to. */
  readonly ask: (study: Study) => Promise<AnswerParts>;
  /** Writes the report, where it is not one like those of other questions. */
  readonly write?: (charts: ChartsPackage, input: AnswerReportInput) => Promise<string>;
}

/**
 * Answers a question: prints the answer, writes JSON and a report if asked for.
 *
 * @throws InputError when an output cannot be written, before anything is simulated
 */
export async function askQuestion(
  options: QuestionOptions,
  { scenarios, reads = [], args, ask, write }: AskedQuestion,
): Promise<ExitCode> {
  const { json, report, seed } = options;
  checkOutputPaths(
    { '--json': typeof json === 'string' ? json : undefined, '--report': report },
    [...scenarios.map(({ file }) => file), ...reads],
    options.journal,
  );
  const charts = report === undefined ? undefined : await requireCharts();
  return studySession(options, async (study) => {
    const parts = await ask(study);
    const answer = toAnswer(parts, { seed, scenarios, shows: study.shows });
    return async () => {
      const text = `${JSON.stringify(answer, null, 2)}\n`;
      process.stdout.write(json === true ? text : answerText(answer));
      let ok = true;
      if (typeof json === 'string') ok = await writeOutput(json, () => text);
      if (report !== undefined && charts !== undefined) {
        const input = { answer, command: sameAgain(args) };
        const text = (): Promise<string> => write?.(charts, input) ?? charts.answerReport(input);
        ok = (await writeOutput(report, text)) && ok;
      }
      return ok ? EXIT.ok : EXIT.failed;
    };
  });
}
