import { type Command, Option } from 'commander';
import { timeFromZero, wholeNumber } from '../argumentKinds.js';
import type { DebriefCommandOptions } from './debriefCommand.js';
import type { FitCommandOptions } from './fitCommand.js';
import type { MatchCommandOptions } from './matchCommand.js';
import {
  type CommandContext,
  withMeasure,
  withQuestionOptions,
  withReplications,
} from './questionOptions.js';

/** The commands that ask logs of the bench and of shows. */
export function registerLogQuestions(program: Command, context: CommandContext): void {
  registerFit(program, context);
  registerMatch(program, context);
  registerDebrief(program, context);
}

function registerFit(program: Command, context: CommandContext): void {
  program
    .command('fit')
    .description('say what logs tell of modules, with what they leave open, and put it into a scenario')
    .argument('<logs...>', 'logs of the bench or of a show (CSV), see log-template')
    .option('--loop <file>', 'scenario that the figures belong into; it stays as it is')
    .option('--into <path>', 'scenario to write: that of --loop with the figures put in')
    .option('--module <name>', 'only this module', each)
    .addOption(
      new Option('--clock <clock>', 'by what stops are counted')
        .choices(['running', 'per_cycle', 'per_ball'])
        .default('running'),
    )
    .option(
      '--batch <balls>',
      'most balls it lifts at once, if the log never saw so many',
      wholeNumber(1, 10_000),
    )
    .option(
      '--reach <time>',
      'what of a stop passed until a hand was there, as in 20s: a scenario has it apart',
      timeFromZero,
      0,
    )
    .option('-s, --seed <number>', 'seed of the tests of fit', wholeNumber(0, Number.MAX_SAFE_INTEGER), 1)
    .option('--json [path]', 'write the answer as JSON to a file, or print it')
    .option('--report <path>', 'write the answer with pictures as one HTML file')
    .action(async (logs: string[], options: FitCommandOptions) => {
      const { fitCommand } = await import('./fitCommand.js');
      context.finish(await fitCommand(logs, options, context.args));
    });
}

function registerMatch(program: Command, context: CommandContext): void {
  const command = program
    .command('match')
    .description('say whether a scenario matches what was logged at a show, module by module')
    .argument('<file>', 'scenario file (YAML or JSON)')
    .argument('<logs...>', 'logs of the show (CSV), see log-template')
    .option('--day <number>', 'day of the show on which the log begins', wholeNumber(1, 1000), 1);
  command.option(
    '-n, --replications <number>',
    'how many shows to hold it against, from 39',
    wholeNumber(39, 1_000_000),
    199,
  );
  withQuestionOptions(command).action(async (file: string, logs: string[], options: MatchCommandOptions) => {
    const { matchCommand } = await import('./matchCommand.js');
    context.finish(await matchCommand(file, logs, options, context.args));
  });
}

function registerDebrief(program: Command, context: CommandContext): void {
  const command = program
    .command('debrief')
    .description('tell what each module did at a show: a page for the club, and one for each builder')
    .argument('<logs...>', 'logs of the show (CSV), see log-template')
    .option('--loop <file>', 'scenario of the show: who built what, and what mending would bring')
    .option('--builder <name>', 'write only the page of this builder into the report');
  withQuestionOptions(
    withMeasure(
      withReplications(command, 'how many shows of each at most, for what mending would bring', 16),
    ),
  ).action(async (logs: string[], options: DebriefCommandOptions) => {
    const { debriefCommand } = await import('./debriefCommand.js');
    context.finish(await debriefCommand(logs, options, context.args));
  });
}

/** An option that may be given many times. */
function each(text: string, earlier: readonly string[] | undefined): readonly string[] {
  return [...(earlier ?? []), text];
}
