import { availableParallelism } from 'node:os';
import { roughCut } from '../estimates/index.js';
import { replicate, type RunResult, toRunResult } from '../experiments/index.js';
import { advice } from '../findings/index.js';
import { loadScenarioFile, type Scenario } from '../scenario/index.js';
import { EXIT, type ExitCode } from './exitCode.js';
import { interruptible } from './interruptible.js';
import type { RunOptions } from './main.js';
import { checkOutputPaths } from './outputPaths.js';
import { ProgressLine } from './progress.js';
import { type ChartsPackage, requireCharts } from './reportWriter.js';
import { shellWord } from './shellWord.js';
import { summaryText } from './summaryText.js';
import { writeOutput } from './writeOutput.js';

/** `lapwright run`: simulates a scenario many times, prints a summary, writes JSON and a report if asked for. */
export async function runCommand(file: string, options: RunOptions): Promise<ExitCode> {
  const { replications, seed, workers = availableParallelism(), json, report } = options;
  const scenario = loadScenarioFile(file);
  checkOutputPaths({ '--json': typeof json === 'string' ? json : undefined, '--report': report }, [file]);
  const writer = report === undefined ? undefined : (await requireCharts()).runReport;

  const progress = new ProgressLine(process.stderr);
  const interrupt = interruptible();
  progress.show(0, replications);
  const outcome = await replicate(scenario.spec, {
    seed,
    replications,
    workers,
    signal: interrupt.signal,
    onProgress: ({ done, asked }) => progress.show(done, asked),
  });
  progress.clear();

  const { summary, stopped, leftOut } = outcome;
  if (stopped !== undefined)
    process.stderr.write(stoppedText(stopped, summary.replications, replications, leftOut));
  const code = stopped === undefined ? EXIT.ok : stopped === 'aborted' ? EXIT.interrupted : EXIT.failed;
  if (summary.replications === 0) return code;
  const result = toRunResult(scenario, summary, { seed, asked: replications });
  const written = await writeOutputs(scenario, result, options, writer);
  interrupt.end();
  return code === EXIT.ok && !written ? EXIT.failed : code;
}

/** Prints and writes everything asked for; what cannot be written is reported, the rest is done all the same. */
async function writeOutputs(
  scenario: Scenario,
  result: RunResult,
  { json, report }: RunOptions,
  writer: ChartsPackage['runReport'] | undefined,
): Promise<boolean> {
  const text = `${JSON.stringify(result, null, 2)}\n`;
  process.stdout.write(
    json === true ? text : summaryText(result, advice(result, scenario.spec, roughCut(scenario.spec))),
  );
  let ok = true;
  const write = async (path: string, content: () => string | Promise<string>): Promise<void> => {
    ok = (await writeOutput(path, content)) && ok;
  };
  if (typeof json === 'string') await write(json, () => text);
  if (report !== undefined && writer !== undefined) {
    await write(report, () =>
      writer({ scenario, result, command: commandFor(scenario.source.file, result) }),
    );
  }
  return ok;
}

/** The command that gives this result again. */
export function commandFor(file: string, { replications, seed }: RunResult): string {
  return `npx lapwright run ${shellWord(file)} --replications ${replications} --seed ${seed}`;
}

function stoppedText(why: 'aborted' | Error, done: number, asked: number, leftOut: number): string {
  const reason = why === 'aborted' ? 'Stopped' : `lapwright: ${why.message}\nStopped by this failure`;
  const kept =
    done === 0
      ? 'no show was finished'
      : `${done} of ${asked} shows were finished; what follows is their result, marked partial`;
  const more =
    leftOut > 0
      ? ` (${leftOut} more had come out of turn and are left out, so that --replications ${done} gives the same)`
      : '';
  return `${reason}: ${kept}${more}.\n`;
}
