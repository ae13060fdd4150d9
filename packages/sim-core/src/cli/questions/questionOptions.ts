import { type Command, Option } from 'commander';
import { MEASURES } from '../../experiments/measures.js';
import { oneOf, shardOf, wholeNumber } from '../argumentKinds.js';
import type { ExitCode } from '../exitCode.js';
import type { StudyCommandOptions } from './studySession.js';

/** Options that every question has. */
export interface QuestionOptions extends StudyCommandOptions {
  readonly json?: true | string;
  readonly report?: string;
}

/** What a command of the program needs to tell the program. */
export interface CommandContext {
  /** All arguments, as typed. */
  readonly args: readonly string[];
  readonly finish: (code: ExitCode) => void;
}

const MEASURE_NAMES = MEASURES.map(({ id }) => id);

/** Options of every question; each says itself how many shows it takes if not told. */
export function withQuestionOptions(command: Command): Command {
  return command
    .option('-s, --seed <number>', 'seed of the random numbers', wholeNumber(0, Number.MAX_SAFE_INTEGER), 1)
    .option('-w, --workers <number>', 'threads to use (default: all cores)', wholeNumber(1, 256))
    .option('--json [path]', 'write the answer as JSON to a file, or print it')
    .option('--report <path>', 'write the answer with pictures as one HTML file')
    .option('--journal <path>', 'write each show into this file as it is finished')
    .option('--resume', 'go on with the journal that is there')
    .option('--shard <k/n>', 'simulate only part k of n, into a journal; see merge', (text: string) =>
      shardOf(text),
    );
}

/** The number of shows. */
export function withReplications(command: Command, what: string, count: number): Command {
  return command.option('-n, --replications <number>', what, wholeNumber(2, 1_000_000), count);
}

/** The measure that decides. */
export function withMeasure(command: Command, otherwise: string | null = 'spills_per_hour'): Command {
  const option = new Option('--on <measure>', `what decides: ${MEASURE_NAMES.join(', ')}`).argParser(
    oneOf(MEASURE_NAMES),
  );
  return command.addOption(otherwise === null ? option : option.default(otherwise));
}
