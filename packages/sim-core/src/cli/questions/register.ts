import type { Command } from 'commander';
import { amount, wholeNumber } from '../argumentKinds.js';
import { withChangeOptions } from './changeOptions.js';
import type { CompareCommandOptions } from './compareCommand.js';
import type { HowManyCommandOptions } from './howManyCommand.js';
import type { MendFirstCommandOptions } from './mendFirstCommand.js';
import {
  type CommandContext,
  withMeasure,
  withQuestionOptions,
  withReplications,
} from './questionOptions.js';
import type { SparesCommandOptions } from './sparesCommand.js';

/** The commands that answer a question; each is loaded when it is called. */
export function registerQuestions(program: Command, context: CommandContext): void {
  registerCompare(program, context);
  registerMendFirst(program, context);
  registerHowMany(program, context);
  registerSpares(program, context);
  registerMerge(program, context);
}

function registerCompare(program: Command, context: CommandContext): void {
  const command = withChangeOptions(
    program
      .command('compare')
      .description(
        'compare two scenarios, or one and a change to it, show by show with the same luck, and say which is better',
      )
      .argument('<before>', 'scenario file')
      .argument('[after]', 'the other scenario file; the same one if not given'),
  );
  withQuestionOptions(withMeasure(withReplications(command, 'how many shows of each', 100)))
    .option('--margin <number>', 'differences up to this do not matter (default: 5 % of before)', amount)
    .option('--until-clear', 'stop as soon as it is clear; then --replications is the most')
    .action(async (before: string, after: string | undefined, options: CompareCommandOptions) => {
      const { compareCommand } = await import('./compareCommand.js');
      context.finish(await compareCommand(before, after, options, context.args));
    });
}

function registerMendFirst(program: Command, context: CommandContext): void {
  const command = program
    .command('mend-first')
    .description('rank the modules by what the show gains if they never stopped')
    .argument('<file>', 'scenario file (YAML or JSON)');
  withQuestionOptions(withMeasure(withReplications(command, 'how many shows of each at most', 100)))
    .option('--places <number>', 'how many of the first to find for sure', wholeNumber(1, 100), 3)
    .action(async (file: string, options: MendFirstCommandOptions) => {
      const { mendFirstCommand } = await import('./mendFirstCommand.js');
      context.finish(await mendFirstCommand(file, options, context.args));
    });
}

function registerHowMany(program: Command, context: CommandContext): void {
  const command = program
    .command('how-many')
    .description(
      'vary one thing and say which value to take: balls, minders, the basket of a module, how often it may stop, or any number of the file',
    )
    .argument('<file>', 'scenario file (YAML or JSON)')
    .argument('<what>', 'balls, minders, basket, stops, or a key of the file such as crew.walk')
    .argument('[module]', 'whose basket or stops');
  withQuestionOptions(withMeasure(withReplications(command, 'how many shows judge each value', 40), null))
    .option('--from <number>', 'lowest value to try (default: values around the one there is)')
    .option('--to <number>', 'highest value to try')
    .option('--step <number>', 'from one value to the next')
    .option('--values <list>', 'just these values, such as 400,500,600')
    .option('--shifts', 'minders: so many more or fewer in every shift')
    .option('--limit <amount>', 'what --on is to keep to, at most (at least where more is better)')
    .option('--margin <amount>', 'without a limit: differences up to this do not matter (default: 10 %)')
    .option('--most', 'as much as will do')
    .option('--least', 'as little as will do')
    .action(
      async (file: string, what: string, module: string | undefined, options: HowManyCommandOptions) => {
        const { howManyCommand } = await import('./howManyCommand.js');
        context.finish(await howManyCommand(file, what, module, options, context.args));
      },
    );
}

function registerSpares(program: Command, context: CommandContext): void {
  const command = program
    .command('spares')
    .description('say which one or two of the spares in the file are worth bringing')
    .argument('<file>', 'scenario file (YAML or JSON)');
  withQuestionOptions(withMeasure(withReplications(command, 'how many shows judge each choice', 60), null))
    .option('--margin <amount>', 'differences up to this do not matter (default: 10 %)')
    .action(async (file: string, options: SparesCommandOptions) => {
      const { sparesCommand } = await import('./sparesCommand.js');
      context.finish(await sparesCommand(file, options, context.args));
    });
}

function registerMerge(program: Command, context: CommandContext): void {
  program
    .command('merge')
    .description('put journals, such as those of shards, into one')
    .argument('<journals...>', 'journals to read')
    .requiredOption('--into <path>', 'journal to write')
    .action(async (journals: string[], options: { into: string }) => {
      const { mergeCommand } = await import('./mergeCommand.js');
      context.finish(mergeCommand(journals, options.into));
    });
}
