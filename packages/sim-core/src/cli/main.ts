import { Command, CommanderError, Option } from 'commander';
import { InputError } from '../errors/index.js';
import { VERSION } from '../experiments/version.js';
import { type FigureName, FIGURES } from '../replay/figure.js';
import { oneOf, wholeNumber } from './argumentKinds.js';
import { EXIT } from './exitCode.js';
import { registerLogs } from './registerLogs.js';
import { registerQuestions } from './questions/register.js';
import type { ReplayOptions } from './replayCommand.js';

/**
 * The command line. Reads the arguments, runs one command and gives the exit code: 0 done, 1 failed while running, 2
 * unusable input, 130 stopped from the keyboard.
 *
 * Each command is loaded when it is called, so that --help and check start fast.
 */
export async function main(args: readonly string[]): Promise<number> {
  let code: number = EXIT.ok;
  let unwritten = false;
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    // The reader of our output has gone, as after "| head": files that were asked for are written all the same.
    if (error.code === 'EPIPE' || unwritten) return;
    unwritten = true;
    process.exitCode = EXIT.failed;
    process.stderr.write(`lapwright: the output could not be written (${error.message})\n`);
  });
  // Nobody is left to tell.
  process.stderr.on('error', () => undefined);
  const program = new Command('lapwright')
    .description(
      'Plan a loop of ball-passing machines before the show: read a scenario, simulate it, see what to do.',
    )
    .version(VERSION, '-V, --version', 'print the version')
    .helpOption('-h, --help', 'print this help')
    .exitOverride()
    .showSuggestionAfterError()
    .configureOutput({ writeErr: (text) => process.stderr.write(inOurWords(text, args)) });

  program
    .command('check')
    .description(
      'read a scenario and say, without simulating, what can be reckoned: capacities, the slowest module, how soon baskets flood',
    )
    .argument('<file>', 'scenario file (YAML or JSON)')
    .option('--formulas', 'show the formula behind each figure')
    .option('--json', 'print the figures as JSON')
    .action(async (file: string, options: { formulas?: boolean; json?: boolean }) => {
      const { checkCommand } = await import('./checkCommand.js');
      code = checkCommand(file, { formulas: options.formulas ?? false, json: options.json ?? false });
    });

  program
    .command('run')
    .description('simulate a scenario many times and print what to expect, with intervals')
    .argument('<file>', 'scenario file (YAML or JSON)')
    .option('-n, --replications <number>', 'how many shows to simulate', wholeNumber(1, 1_000_000), 100)
    .option(
      '-s, --seed <number>',
      'seed of the random numbers; the same seed gives the same result',
      wholeNumber(0, Number.MAX_SAFE_INTEGER),
      1,
    )
    .option(
      '-w, --workers <number>',
      'threads to use; the result does not depend on it (default: all cores)',
      wholeNumber(1, 256),
    )
    .option('--json [path]', 'write the result as JSON to a file, or print it instead of the summary')
    .option('--report <path>', 'write a report with pictures as one HTML file')
    .action(async (file: string, options: RunOptions) => {
      const { runCommand } = await import('./runCommand.js');
      code = await runCommand(file, options);
    });

  program
    .command('replay')
    .description('simulate one show again and tell what happened in it, line by line')
    .argument('<file>', 'scenario file (YAML or JSON)')
    .addOption(
      new Option('-r, --replication <number>', 'number of the show, from 0, as in a run with the same seed')
        .argParser(wholeNumber(0, 999_999))
        .conflicts('worst'),
    )
    .option(
      '--worst <figure>',
      `instead: the worst of many shows, by ${FIGURE_NAMES.join(', ')} (default: spills)`,
      oneOf(FIGURE_NAMES),
    )
    .option(
      '-n, --replications <number>',
      'how many shows the worst is looked for in (default: 100)',
      wholeNumber(1, 1_000_000),
    )
    .option(
      '-s, --seed <number>',
      'seed of the random numbers, as in the run',
      wholeNumber(0, Number.MAX_SAFE_INTEGER),
      1,
    )
    .option('-w, --workers <number>', 'threads to use (default: all cores)', wholeNumber(1, 256))
    .option(
      '--from <moment>',
      'beginning of what is told: 11:00, "day 2 11:00", or 90 min after the opening (default: the opening; with --worst the worst hour is told)',
    )
    .option('--to <moment>', 'end of what is told (default: the end of the show)')
    .option('--csv [path]', 'write everything that happened as CSV to a file, or print it')
    .option('--json [path]', 'the same as JSON')
    .option('--report <path>', 'write a report with a timeline as one HTML file')
    .action(async (file: string, options: ReplayOptions) => {
      const { replayCommand } = await import('./replayCommand.js');
      code = await replayCommand(file, options);
    });

  registerQuestions(program, {
    args,
    finish: (found) => {
      code = found;
    },
  });

  registerLogs(program, (found) => {
    code = found;
  });

  program
    .command('keys')
    .description('print every key of a scenario file with a sentence of explanation')
    .action(async () => {
      const { keysCommand } = await import('./keysCommand.js');
      code = keysCommand();
    });

  program
    .command('schema')
    .description(
      'print a JSON Schema: of scenario files (for editors), of the result of run --json, or of the answers of questions',
    )
    .argument('<which>', 'scenario, result or answer', oneOf(['scenario', 'result', 'answer']))
    .action(async (which: 'scenario' | 'result' | 'answer') => {
      const { schemaCommand } = await import('./schemaCommand.js');
      code = schemaCommand(which);
    });

  try {
    await program.parseAsync([...args], { from: 'user' });
    return unwritten && code === EXIT.ok ? EXIT.failed : code;
  } catch (error) {
    return explain(error, args);
  }
}

const FIGURE_NAMES = Object.keys(FIGURES) as FigureName[];

/** Options of the run command, as the command line gives them. */
export interface RunOptions {
  readonly replications: number;
  readonly seed: number;
  readonly workers?: number;
  readonly json?: true | string;
  readonly report?: string;
}

/** A fault of the command line as commander tells it; what changes a loop belongs to other commands than run and replay. */
function inOurWords(text: string, args: readonly string[]): string {
  const ours = text.replace(/^error: /, 'lapwright: ');
  const [, change] = /unknown option '(--(?:set|swap|move|with|without))'/.exec(text) ?? [];
  if (change === undefined || !['run', 'replay', 'check'].includes(args[0] ?? '')) return ours;
  const file = args.slice(1).find((word) => /\.(ya?ml|json)$/i.test(word)) ?? 'FILE';
  const fact = ours.split('\n')[0] ?? '';
  return `${fact}\n${args[0]} takes the file as it is. With a change beside it: npx lapwright compare ${file} ${change} ${change === '--set' ? 'charge=200' : '...'}\n`;
}

function explain(error: unknown, args: readonly string[]): number {
  if (error instanceof CommanderError) {
    // Commander has printed what is wrong; help and version come here too, with code 0.
    const greedy = ['--json', '--csv'].find((option) => args.includes(option));
    if (error.code === 'commander.missingArgument' && greedy !== undefined)
      process.stderr.write(`${greedy} took the next word for its path: put the scenario file before it.\n`);
    return error.exitCode === 0 ? EXIT.ok : EXIT.unusable;
  }
  if (error instanceof InputError) {
    const { length } = error.problems;
    process.stderr.write(
      `lapwright: ${length === 1 ? 'a problem' : length > 100 ? 'more than 100 problems' : `${length} problems`} found\n${error.message}\n`,
    );
    return EXIT.unusable;
  }
  const text = error instanceof Error ? error.message : String(error);
  process.stderr.write(
    `lapwright: ${text}\nThis is a fault of the program, not of the scenario. Please report it with the scenario file.\n`,
  );
  return EXIT.failed;
}
