import { type Command, Option } from 'commander';
import {
  confidence,
  listed,
  positive,
  ruleText,
  sureness,
  timeAboveZero,
  wholeNumber,
} from '../argumentKinds.js';
import type { BestOfCommandOptions } from './bestOfCommand.js';
import type { BestOrderCommandOptions } from './bestOrderCommand.js';
import { withChangeOptions } from './changeOptions.js';
import type { CompareCommandOptions } from './compareCommand.js';
import type { EnoughCommandOptions } from './enoughCommand.js';
import type { InlineCommandOptions } from './inlineCommand.js';
import type { FloodCardCommandOptions } from './floodCardCommand.js';
import type { HowRareCommandOptions } from './howRareCommand.js';
import type { HowManyCommandOptions } from './howManyCommand.js';
import type { MendFirstCommandOptions } from './mendFirstCommand.js';
import { registerLogQuestions } from './registerLogQuestions.js';
import {
  type CommandContext,
  withMeasure,
  withQuestionOptions,
  withReplications,
} from './questionOptions.js';
import type { WhenStopsCommandOptions } from './whenStopsCommand.js';
import type { SparesCommandOptions } from './sparesCommand.js';

/** The commands that answer a question; each is loaded when it is called. */
export function registerQuestions(program: Command, context: CommandContext): void {
  registerEnough(program, context);
  registerCompare(program, context);
  registerMendFirst(program, context);
  registerBestOf(program, context);
  registerInline(program, context);
  registerWhenStops(program, context);
  registerFloodCard(program, context);
  registerHowRare(program, context);
  registerHowMany(program, context);
  registerSpares(program, context);
  registerBestOrder(program, context);
  registerLogQuestions(program, context);
  registerMerge(program, context);
}

function registerEnough(program: Command, context: CommandContext): void {
  const command = program
    .command('enough')
    .description('simulate until a figure is known as sharply as asked')
    .argument('<file>', 'scenario file (YAML or JSON)');
  withQuestionOptions(withMeasure(command))
    .option(
      '--within <amount>',
      'how sharply: a share of the figure, or an amount of it such as 0.005 bps',
      '10 %',
    )
    .option('--at-most <number>', 'no more shows than this', wholeNumber(2, 1_000_000), 1000)
    .action(async (file: string, options: EnoughCommandOptions) => {
      const { enoughCommand } = await import('./enoughCommand.js');
      context.finish(await enoughCommand(file, options, context.args));
    });
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
    .option(
      '--margin <amount>',
      'differences up to this do not matter: a share of before, or an amount',
      '5 %',
    )
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
  withQuestionOptions(withMeasure(withReplications(command, 'how many shows of each at most', 16)))
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

function registerInline(program: Command, context: CommandContext): void {
  const PLACES = ['after', 'before', 'anywhere', 'places'];
  const place = (flags: string, doc: string, name: string): Option =>
    new Option(flags, doc).conflicts(PLACES.filter((other) => other !== name));
  const each = (text: string, earlier: readonly string[] = []): readonly string[] => [...earlier, text];
  const command = program
    .command('inline')
    .description(
      'say whether a module may go into the loop by the rules of the house, where best, and with how many stops an hour',
    )
    .argument('<file>', 'scenario file (YAML or JSON)')
    .argument('<module>', 'a module of the loop or on the side table')
    .addOption(place('--after <module>', 'put it right behind this module', 'after'))
    .addOption(place('--before <module>', 'put it right before this module', 'before'))
    .addOption(
      place(
        '--anywhere',
        'find the best of all places (what is done with one from the side table)',
        'anywhere',
      ),
    )
    .addOption(
      place('--places <modules>', 'find the best place right behind one of these: a,b,c', 'places').argParser(
        listed,
      ),
    )
    .option(
      '--spare <spare>',
      'what could stand in its place (the first spare, or a plain chute, if not given)',
    )
    .option(
      '--rule <name=limit>',
      'a rule of the house, instead of that in the file',
      (text: string, earlier?: readonly string[]) => each(ruleText(text), earlier),
    )
    .option('--set <key=value>', 'what if: another value for a key of the file', each)
    .option(
      '--search <number>',
      'how many shows to spend on the search for a place',
      wholeNumber(2, 1_000_000),
      130,
    )
    .option(
      '--as-written',
      'take all figures at their word, whatever they were counted from (counted: in the file)',
    )
    .option(
      '--draws <number>',
      'how often to draw what was counted, two shows each (default: 200)',
      wholeNumber(20, 1_000_000),
    );
  withQuestionOptions(withReplications(command, 'how many shows of each loop', 40)).action(
    async (file: string, module: string, options: InlineCommandOptions) => {
      const { inlineCommand } = await import('./inlineCommand.js');
      context.finish(await inlineCommand(file, module, options, context.args));
    },
  );
}

function registerWhenStops(program: Command, context: CommandContext): void {
  const command = program
    .command('when-stops')
    .description(
      'one module stops now: how soon what floods, how many balls fall, what comes downstream, when it is calm again, by when to act',
    )
    .argument('<file>', 'scenario file (YAML or JSON)')
    .argument('<module>', 'the module that stops');
  withQuestionOptions(withReplications(command, 'how many pairs of shows', 400))
    .option('--for <time>', 'how long it stops (default: 5min)', timeAboveZero)
    .addOption(
      new Option(
        '--cleared-in <time>',
        'instead: until a minder, who comes as the file says, has worked on it for so long',
      )
        .argParser(timeAboveZero)
        .conflicts('for'),
    )
    .option(
      '--at <moment>',
      'now is 14:00, "day 2 14:00" or 90min after the opening (default: when it has settled)',
    )
    .addOption(
      new Option(
        '--levels <list>',
        'now is the opening with these levels, as in --levels gatehouse=40,tipper=90; the rest of the charge goes into the other baskets',
      ).conflicts('at'),
    )
    .addOption(watchTime('how long to watch the loop afterwards'))
    .option('--sure <share>', 'how sure it is to be that nothing falls', sureness, 0.95)
    .option(
      '--swap-takes <time>',
      'how long you need to put a spare or a plain chute in (default: as the file says)',
      timeAboveZero,
    )
    .action(async (file: string, module: string, options: WhenStopsCommandOptions) => {
      const { whenStopsCommand } = await import('./whenStopsCommand.js');
      context.finish(await whenStopsCommand(file, module, options, context.args));
    });
}

/** The default is shown as it would be typed. */
function watchTime(description: string): Option {
  return new Option('--watch <time>', description).argParser(timeAboveZero).default(1800, '30min');
}

function registerFloodCard(program: Command, context: CommandContext): void {
  const command = program
    .command('flood-card')
    .description(
      'how soon each basket floods if its module stops, and what to do first; --report writes it as one page to print for the table',
    )
    .argument('<file>', 'scenario file (YAML or JSON)');
  withQuestionOptions(withReplications(command, 'how many shows', 60))
    .option('--moments <number>', 'moments looked at in each show', wholeNumber(1, 1000), 8)
    .addOption(watchTime('later than this is not looked for'))
    .action(async (file: string, options: FloodCardCommandOptions) => {
      const { floodCardCommand } = await import('./floodCardCommand.js');
      context.finish(await floodCardCommand(file, options, context.args));
    });
}

function registerHowRare(program: Command, context: CommandContext): void {
  const command = program
    .command('how-rare')
    .description('the chance that a basket runs over, also when a hundred shows would not see it once')
    .argument('<file>', 'scenario file (YAML or JSON)')
    .argument('[module]', 'module whose basket it is; any basket if not given');
  withQuestionOptions(withReplications(command, 'how many shows are started', 200)).action(
    async (file: string, module: string | undefined, options: HowRareCommandOptions) => {
      const { howRareCommand } = await import('./howRareCommand.js');
      context.finish(await howRareCommand(file, module, options, context.args));
    },
  );
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
    .option('--budget <shows>', 'how many shows to simulate in all', wholeNumber(40, 1_000_000), 600);
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
