import { availableParallelism } from 'node:os';
import { InputError, LimitError, SimulationError } from '../errors/index.js';
import { Study, StudyStopped } from '../studies/index.js';
import { EXIT, type ExitCode } from './exitCode.js';
import { interruptible } from './interruptible.js';
import { type JournalFile, openJournal } from './journalFile.js';
import { ProgressLine } from './progress.js';

/** Options that every question has which simulates several loops. */
export interface StudyCommandOptions {
  readonly seed: number;
  readonly workers?: number;
  readonly journal?: string;
  readonly resume?: boolean;
  readonly shard?: { readonly number: number; readonly of: number };
}

/**
 * Runs a question: with progress, a journal and Ctrl-C, which keeps in the journal what is finished.
 *
 * @param ask simulates what it needs and prints the answer
 */
export async function studySession(
  options: StudyCommandOptions,
  ask: (study: Study) => Promise<ExitCode>,
): Promise<ExitCode> {
  const { seed, workers = availableParallelism(), journal, resume = false, shard } = options;
  if (journal === undefined && (resume || shard)) {
    throw new InputError([
      {
        code: 'contradiction',
        path: shard ? '--shard' : '--resume',
        rule: 'this needs a journal',
        hint: 'Add --journal PATH.',
      },
    ]);
  }
  let file: JournalFile | undefined;
  if (journal !== undefined) file = openJournal(journal, seed, resume);
  const progress = new ProgressLine(process.stderr);
  const interrupt = interruptible();
  const study = new Study({
    seed,
    workers,
    signal: interrupt.signal,
    ...(file && { table: file.table, onLine: file.append }),
    ...(shard && { shard }),
    onProgress: ({ done, asked }) => progress.show(done, asked),
  });
  try {
    const code = await ask(study);
    progress.clear();
    return code;
  } catch (error) {
    progress.clear();
    const kept =
      journal === undefined
        ? 'Nothing is kept: with --journal PATH the finished shows would be.'
        : `${study.table.size} shows are in ${journal}; the same command with --resume goes on.`;
    if (error instanceof StudyStopped) {
      process.stderr.write(`Stopped. ${kept}\n`);
      return EXIT.interrupted;
    }
    if (error instanceof SimulationError || error instanceof LimitError) {
      process.stderr.write(`lapwright: ${error.message}\n${kept}\n`);
      return EXIT.failed;
    }
    throw error;
  } finally {
    interrupt.end();
    await study.close();
    file?.close();
  }
}
