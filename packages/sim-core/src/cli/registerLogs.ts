import { type Command, InvalidArgumentError, Option } from 'commander';
import { parseQuantity } from '../units/index.js';
import { oneOf, timeAboveZero, wholeNumber } from './argumentKinds.js';
import type { ExitCode } from './exitCode.js';
import type { MakeLogOptions } from './makeLogCommand.js';

/** The commands about logs; each is loaded when it is called. */
export function registerLogs(program: Command, finish: (code: ExitCode) => void): void {
  program
    .command('log-template')
    .description('print a log of the bench or of a show to begin with, as CSV with explanations')
    .argument('<which>', 'bench or show', oneOf(['bench', 'show']))
    .option('--report <path>', 'instead write an empty sheet to print and fill in by hand, as one HTML file')
    .action(async (which: 'bench' | 'show', options: { report?: string }) => {
      const { logTemplateCommand } = await import('./logTemplateCommand.js');
      finish(await logTemplateCommand(which, options));
    });

  program
    .command('make-log')
    .description('simulate and print the log that somebody would have kept, for teaching and trying out')
    .argument('<file>', 'scenario file (YAML or JSON)')
    .option('--bench <module>', 'of one module alone on the bench, with balls always waiting')
    .option('--show', 'of the whole loop at the show')
    .addOption(
      new Option('--lasts <time>', 'how long the bench is watched')
        .argParser(timeAboveZero)
        .default(3600, '1h'),
    )
    .addOption(
      new Option('--fill <share>', 'how full the basket is kept on the bench')
        .argParser(share)
        .default(0.5, '50 %'),
    )
    .option('--no-batches', 'on the bench nobody counts batches')
    .option('--levels', 'at the show it is noted at each stop how full the basket stands')
    .option(
      '-s, --seed <number>',
      'seed of the random numbers; the same seed gives the same log',
      wholeNumber(0, Number.MAX_SAFE_INTEGER),
      1,
    )
    .option('-r, --replication <number>', 'number of the show, from 0', wholeNumber(0, 999_999), 0)
    .action(async (file: string, options: MakeLogOptions) => {
      const { makeLogCommand } = await import('./makeLogCommand.js');
      finish(makeLogCommand(file, options));
    });
}

/** Reads how full a basket is kept. */
function share(text: string): number {
  const read = parseQuantity(text, 'share');
  if (!(read.ok && read.value > 0 && read.value <= 0.95))
    throw new InvalidArgumentError('It must be a share above 0 and at most 95 %, such as 50 %.');
  return read.value;
}
