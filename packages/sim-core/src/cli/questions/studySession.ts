import { availableParallelism } from 'node:os';
import { InputError, LimitError, SimulationError } from '../../errors/index.js';
import { ShardDone, Study, StudyStopped } from '../../studies/index.js';
import { EXIT, type ExitCode } from '../exitCode.js';
import { interruptible } from '../interruptible.js';
import { type JournalFile, openJournal } from './journalFile.js';
import { ProgressLine } from '../progress.js';

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
 * @param ask simulates what it needs; what it gives is called when the progress line is gone, to print the answer
 */
export async function studySession(
  options: StudyCommandOptions,
  ask: (study: Study) => Promise<() => Promise<ExitCode>>,
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
  if (file && resume) process.stderr.write(`${resumedWords(journal, file.table.size)}\n`);
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
    const print = await ask(study);
    progress.clear();
    return await print();
  } catch (error) {
    progress.clear();
    const kept =
      journal === undefined
        ? 'Nothing is kept: with --journal PATH the finished shows would be.'
        : `${study.table.size} shows are in ${journal}; the same command with --resume goes on.`;
    if (error instanceof ShardDone && shard) {
      process.stdout.write(
        `Part ${shard.number + 1} of ${shard.of} is done: ${study.table.size} shows are in ${journal}.\nWhen all parts are, put them into one with merge, and give the same command without --shard that journal and --resume.\n`,
      );
      return EXIT.ok;
    }
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

/** A name that was not typed as before would otherwise start all over without a word. */
function resumedWords(journal: string | undefined, shows: number): string {
  return shows === 0
    ? `No show is in ${journal} yet: the study starts from the beginning.`
    : `${shows} shows are in ${journal} already.`;
}
