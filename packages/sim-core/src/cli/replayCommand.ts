import { availableParallelism } from 'node:os';
import { InputError, LimitError } from '../errors/index.js';
import { clockLabel } from '../units/index.js';
import {
  type FigureName,
  findWorst,
  incidentCsv,
  readWindow,
  type ReplayedShow,
  replayJson,
  replayShow,
  type ReplayShowOptions,
  type TimeWindow,
} from '../replay/index.js';
import { loadScenarioFile, type Scenario } from '../scenario/index.js';
import { EXIT, type ExitCode } from './exitCode.js';
import { interruptible } from './interruptible.js';
import { checkOutputPaths } from './outputPaths.js';
import { ProgressLine } from './progress.js';
import { replayText } from './replayText.js';
import { type ChartsPackage, requireCharts } from './reportWriter.js';
import { shellWord } from './shellWord.js';
import { writeOutput } from './writeOutput.js';

/** Options of the replay command, as the command line gives them. */
export interface ReplayOptions {
  readonly replication?: number;
  readonly worst?: FigureName;
  readonly replications?: number;
  readonly seed: number;
  readonly workers?: number;
  readonly from?: string;
  readonly to?: string;
  readonly csv?: true | string;
  readonly json?: true | string;
  readonly report?: string;
}

/** Shows among which the worst is looked for, unless told otherwise: as many as `run` simulates. */
const SHOWS = 100;

/** `lapwright replay`: simulates one show again and tells what happened in it. */
export async function replayCommand(file: string, options: ReplayOptions): Promise<ExitCode> {
  const { seed, from, to, report } = options;
  const scenario = loadScenarioFile(file);
  checkOutputs(options, file);
  const window =
    from === undefined && to === undefined ? undefined : readWindow({ from, to }, scenario.spec.show);
  const writer = report === undefined ? undefined : (await requireCharts()).replayReport;

  const { code, show } = await chooseShow(scenario, options);
  if (show === undefined) return code;
  let shown: ReplayedShow;
  try {
    shown = replayShow(scenario, {
      ...show,
      seed,
      ...(window && { window }),
      pictures: writer !== undefined,
    });
  } catch (error) {
    if (!(error instanceof LimitError)) throw error;
    process.stderr.write(`lapwright: ${error.message}\n`);
    return EXIT.failed;
  }
  const written = await writeOutputs(shown, options, writer);
  return code === EXIT.ok && !written ? EXIT.failed : code;
}

/** Checks what is to be written and printed. */
function checkOutputs({ csv, json, report }: ReplayOptions, file: string): void {
  const path = (option: true | string | undefined): string | undefined =>
    typeof option === 'string' ? option : undefined;
  checkOutputPaths({ '--json': path(json), '--report': report, '--csv': path(csv) }, [file]);
  if (csv === true && json === true) {
    throw new InputError([
      {
        code: 'contradiction',
        path: '--csv, --json',
        rule: 'both would be printed',
        hint: 'Write a path behind one of them.',
      },
    ]);
  }
}

/** The show asked for, or the worst of many; none when no show was finished. */
async function chooseShow(
  scenario: Scenario,
  options: ReplayOptions,
): Promise<{
  readonly code: ExitCode;
  readonly show?: Pick<ReplayShowOptions, 'replication'> & Partial<Pick<ReplayShowOptions, 'worst'>>;
}> {
  const { replication, worst: figure = 'spills', replications, seed } = options;
  if (replication !== undefined) {
    if (replications !== undefined && replication >= replications) {
      throw new InputError([
        {
          code: 'out_of_range',
          path: '--replication',
          found: replication,
          rule: `below ${replications}: a run of ${replications} has shows 0 to ${replications - 1}`,
        },
      ]);
    }
    return { code: EXIT.ok, show: { replication } };
  }
  const asked = replications ?? SHOWS;
  const progress = new ProgressLine(process.stderr);
  const interrupt = interruptible();
  progress.show(0, asked);
  const { worst, stopped } = await findWorst(scenario.spec, {
    figure,
    seed,
    replications: asked,
    workers: options.workers ?? availableParallelism(),
    signal: interrupt.signal,
    onProgress: ({ done }) => progress.show(done, asked),
  });
  progress.clear();
  // After Ctrl-C it stays in charge: the same press may arrive once more.
  if (stopped === undefined) interrupt.end();
  else process.stderr.write(stoppedText(stopped, worst?.shows ?? 0, asked));
  const code = stopped === undefined ? EXIT.ok : stopped === 'aborted' ? EXIT.interrupted : EXIT.failed;
  return { code, ...(worst && { show: { replication: worst.replication, worst } }) };
}

function stoppedText(why: 'aborted' | Error, done: number, asked: number): string {
  const reason = why === 'aborted' ? 'Stopped' : `lapwright: ${why.message}\nStopped by this failure`;
  const kept =
    done === 0
      ? 'no show was finished'
      : `${done} of ${asked} shows were finished; what follows is the worst of these`;
  return `${reason}: ${kept}.\n`;
}

/** Prints and writes everything asked for; what cannot be written is reported, the rest is done all the same. */
async function writeOutputs(
  shown: ReplayedShow,
  { csv, json, report }: ReplayOptions,
  writer: ChartsPackage['replayReport'] | undefined,
): Promise<boolean> {
  const table = (): string => incidentCsv(shown.log, shown.scenario.spec);
  const files = [csv, json, report].some((path) => typeof path === 'string');
  process.stdout.write(
    csv === true ? table() : json === true ? replayJson(shown) : replayText(shown, { story: !files }),
  );
  let ok = true;
  const write = async (path: string, content: () => string | Promise<string>): Promise<void> => {
    ok = (await writeOutput(path, content)) && ok;
  };
  if (typeof csv === 'string') await write(csv, table);
  if (typeof json === 'string') await write(json, () => replayJson(shown));
  if (report !== undefined && writer !== undefined)
    await write(report, () => writer({ shown, command: commandFor(shown) }));
  return ok;
}

/** The command that replays the same window of the same show. */
function commandFor({ scenario, replication, seed, window }: ReplayedShow): string {
  const { source, spec } = scenario;
  const { show } = spec;
  const whole = window.from === 0 && window.to === show.seconds;
  const [from, to] = whole ? ['', ''] : momentsOf(window, show);
  return `npx lapwright replay ${shellWord(source.file)} --replication ${replication} --seed ${seed}${
    whole ? '' : ` --from ${shellWord(from)} --to ${shellWord(to)}`
  }`;
}

/** The ends of a window as they can be typed: by the clock if that is exact, or in seconds after the opening. */
function momentsOf(window: TimeWindow, show: Scenario['spec']['show']): [string, string] {
  const labels: [string, string] = [
    clockLabel(show, window.from),
    clockLabel(show, window.to, { end: true }),
  ];
  try {
    const read = readWindow({ from: labels[0], to: labels[1] }, show);
    if (read.from === window.from && read.to === window.to) return labels;
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
  }
  return [`${window.from} s`, `${window.to} s`];
}
