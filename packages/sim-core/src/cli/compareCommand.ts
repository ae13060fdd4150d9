import { basename } from 'node:path';
import { applyChanges } from '../changes/index.js';
import { InputError } from '../errors/index.js';
import { MEASURES, measureIndex } from '../experiments/index.js';
import { intervalPhrase, KINDS, meanPhrase } from '../findings/index.js';
import { loadScenarioFile, type Scenario } from '../scenario/index.js';
import { compare, type Comparison, type MeasureDifference, system } from '../studies/index.js';
import { type ChangeOptions, changesOf } from './changeOptions.js';
import { EXIT, type ExitCode } from './exitCode.js';
import { table, wrap } from './layout.js';
import { checkOutputPaths } from './outputPaths.js';
import { studySession, type StudyCommandOptions } from './studySession.js';
import { writeOutput } from './writeOutput.js';

/** Options of the compare command, as the command line gives them. */
export interface CompareCommandOptions extends StudyCommandOptions, ChangeOptions {
  readonly replications: number;
  readonly on: string;
  readonly margin?: number;
  readonly json?: true | string;
}

/** `lapwright compare`: two scenario files, or one and a change to it, show by show with the same luck. */
export async function compareCommand(
  file: string,
  other: string | undefined,
  options: CompareCommandOptions,
): Promise<ExitCode> {
  const changes = changesOf(options);
  if (other === undefined && changes.length === 0) {
    throw new InputError([
      {
        code: 'missing_key',
        path: '',
        rule: 'there is nothing to compare with',
        hint: 'Name a second file, or a change such as --set crew.minders=2 or --swap a,b.',
      },
    ]);
  }
  const scenarios = [loadScenarioFile(file), applyChanges(other ?? file, changes)] as const;
  checkOutputPaths({ '--json': typeof options.json === 'string' ? options.json : undefined }, file);
  const before = system(basename(file), scenarios[0].spec);
  const after = system(
    [...(other === undefined ? [] : [basename(other)]), ...scenarios[1].changesInWords].join(', '),
    scenarios[1].spec,
  );
  return studySession(options, async (study) => {
    const { replications, on, margin, shard } = options;
    if (shard) {
      study.expect(Math.ceil((2 * replications) / shard.of));
      await study.simulate([before, after], replications);
      process.stdout.write(`Shard ${shard.number + 1} of ${shard.of} is done.\n`);
      return EXIT.ok;
    }
    const comparison = await compare(study, before, after, {
      replications,
      on,
      ...(margin !== undefined && { margin }),
    });
    const result = {
      kind: 'lapwright-comparison',
      format: 1,
      seed: options.seed,
      replications,
      before: scenarioOf(scenarios[0]),
      after: { ...scenarioOf(scenarios[1]), changes: scenarios[1].source.changes },
      ...comparison,
    };
    const text = `${JSON.stringify(result, null, 2)}\n`;
    process.stdout.write(
      options.json === true ? text : comparisonText(before.label, after.label, comparison),
    );
    if (typeof options.json === 'string' && !(await writeOutput(options.json, () => text)))
      return EXIT.failed;
    return EXIT.ok;
  });
}

function scenarioOf({ name, source }: Scenario): object {
  return { name, file: source.file, sha256: source.sha256 };
}

/** A comparison in words and figures: the verdict first. */
export function comparisonText(before: string, after: string, comparison: Comparison): string {
  const rows = comparison.measures
    .filter(({ before: a, after: b }) => a.mean !== null && b.mean !== null && (a.mean !== 0 || b.mean !== 0))
    .map((one) => {
      const { title, kind } = measureOf(one);
      return [
        title,
        meanPhrase(one.before, KINDS[kind]),
        meanPhrase(one.after, KINDS[kind]),
        intervalPhrase(one.difference, KINDS[kind]),
      ];
    });
  return `${[
    wrap(verdictSentence(before, after, comparison)),
    table(['', 'before', 'after', 'difference, 95 %'], rows),
    wrap(pairingSentence(comparison)),
  ].join('\n\n')}\n`;
}

function measureOf({ measure }: MeasureDifference): (typeof MEASURES)[number] {
  return MEASURES[measureIndex(measure)] as (typeof MEASURES)[number];
}

/** The verdict with its evidence. */
function verdictSentence(before: string, after: string, comparison: Comparison): string {
  const { on, margin, verdict, more_replications: more, measures } = comparison;
  const decided = measures[measureIndex(on)] as MeasureDifference;
  const { title, kind } = measureOf(decided);
  const { difference } = decided;
  const by = `${title} ${meanPhrase(decided.before, KINDS[kind])} before, ${meanPhrase(decided.after, KINDS[kind])} after; the difference is ${intervalPhrase(difference, KINDS[kind])} (95 % interval, ${difference.replications} pairs of shows)`;
  const within = `up to ${meanPhrase({ ...difference, mean: margin }, KINDS[kind])} does not matter`;
  switch (verdict) {
    case 'better':
      return `${after} is better than ${before}: ${by}.`;
    case 'worse':
      return `${after} is worse than ${before}: ${by}.`;
    case 'no difference that matters':
      return `Between ${before} and ${after} there is no difference that matters: ${by}; ${within}.`;
    case 'undecided':
      return `Undecided between ${before} and ${after}: ${by}; ${within}.${more === null ? '' : ` It would take about ${more} more pairs.`}`;
  }
}

function pairingSentence({ on, measures }: Comparison): string {
  const { correlation, pair_worth: worth } = measures[measureIndex(on)] as MeasureDifference;
  const same = 'Show by show, both met the same luck';
  if (worth === null || correlation === null) return `${same}.`;
  const saved =
    worth > 1.05
      ? `one pair told as much as ${worth.toFixed(1)} shows of each with luck of their own`
      : 'which did not help here: the change mixes the luck up';
  return `${same} (correlation ${correlation.toFixed(2)}): ${saved}.`;
}
