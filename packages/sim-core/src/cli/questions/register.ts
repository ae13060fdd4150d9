import type { Command } from 'commander';
import { amount, confidence, positive, wholeNumber } from '../argumentKinds.js';
import type { BestOfCommandOptions } from './bestOfCommand.js';
import type { BestOrderCommandOptions } from './bestOrderCommand.js';
import { withChangeOptions } from './changeOptions.js';
import type { CompareCommandOptions } from './compareCommand.js';
import type { MendFirstCommandOptions } from './mendFirstCommand.js';
import {
  type CommandContext,
  withMeasure,
  withQuestionOptions,
  withReplications,
} from './questionOptions.js';

/** The commands that answer a question; each is loaded when it is called. */
export function registerQuestions(program: Command, context: CommandContext): void {
  registerCompare(program, context);
  registerMendFirst(program, context);
  registerBestOf(program, context);
  registerBestOrder(program, context);
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

function registerBestOf(program: Command, context: CommandContext): void {
  const command = program
    .command('best-of')
    .description('find the best of several scenarios, or of one and variants of it, with a promised chance')
    .argument('<files...>', 'scenario files; the first is what the others are measured by')
    .option(
      '--variant <changes>',
      'the first file with changes, as "--set crew.minders=2 --swap a,b"; a name may stand before: "two minders: --set ..."',
      each,
    )
    .option(
      '--zone <number>',
      'differences below this do not matter (default: 5 % of the first one)',
      positive,
    )
    .option('--confidence <chance>', 'chance that the best is named', confidence, 0.95)
    .option('--independent', 'each with luck of its own instead of the same luck for all');
  withQuestionOptions(withMeasure(withReplications(command, 'how many shows of each at most', 100))).action(
    async (files: string[], options: BestOfCommandOptions) => {
      const { bestOfCommand } = await import('./bestOfCommand.js');
      context.finish(await bestOfCommand(files, options, context.args));
    },
  );
}

function registerBestOrder(program: Command, context: CommandContext): void {
  const command = program
    .command('best-order')
    .description('look for a better order of the same modules, and say what each move brings')
    .argument('<file>', 'scenario file (YAML or JSON)')
    .option('--fix <modules>', 'these stay in their place, as in gatehouse,copper-snail', each)
    .option(
      '--together <modules>',
      'these stay in one piece, as in a,b,c; or the word builder: the modules of each builder',
      each,
    )
    .option('--apart <a,b>', 'these two are never side by side', each)
    .option('--never-right-after <a,b>', 'a is never right after b', each)
    .option('--never-behind <a,b>', 'a is never anywhere behind b, from the first place on', each)
    .option('--moves <number>', 'how many modules may be carried elsewhere at most', wholeNumber(1, 2000), 6)
    .option('--budget <shows>', 'how many shows to simulate in all', wholeNumber(40, 1_000_000), 300);
  withQuestionOptions(withMeasure(command)).action(async (file: string, options: BestOrderCommandOptions) => {
    const { bestOrderCommand } = await import('./bestOrderCommand.js');
    context.finish(await bestOrderCommand(file, options, context.args));
  });
}

/** An option that may be given many times. */
function each(text: string, earlier: readonly string[] | undefined): readonly string[] {
  return [...(earlier ?? []), text];
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
