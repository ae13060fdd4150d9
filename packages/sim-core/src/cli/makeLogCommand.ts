import { InputError, LimitError, ParameterError } from '../errors/index.js';
import { benchLog, showLog } from '../replay/index.js';
import { loadScenarioFile, type Scenario } from '../scenario/index.js';
import { suggest } from '../scenario/nearest.js';
import type { ModuleSpec } from '../model/spec/index.js';
import { EXIT, type ExitCode } from './exitCode.js';

/** Options of the make-log command, as the command line gives them. */
export interface MakeLogOptions {
  readonly bench?: string;
  readonly show?: true;
  readonly lasts: number;
  readonly fill: number;
  readonly batches: boolean;
  readonly levels?: true;
  readonly seed: number;
  readonly replication: number;
}

/** `lapwright make-log`: prints the log that somebody would have kept of a simulated hour on the bench, or of a show. */
export function makeLogCommand(file: string, options: MakeLogOptions): ExitCode {
  const { bench, show, lasts, fill, batches, levels = false, seed, replication } = options;
  if ((bench === undefined) === (show === undefined))
    throw new InputError([
      { code: 'contradiction', path: '--bench, --show', rule: 'one of the two must be asked for' },
    ]);
  const scenario = loadScenarioFile(file);
  try {
    process.stdout.write(
      bench === undefined
        ? showLog(scenario, { seed, replication, levels })
        : benchLog(moduleOf(scenario, bench), { seed, replication, seconds: lasts, fill, batches }),
    );
  } catch (error) {
    if (error instanceof ParameterError)
      throw new InputError([{ code: 'out_of_range', path: bench ?? '', rule: error.message }]);
    if (!(error instanceof LimitError)) throw error;
    process.stderr.write(`lapwright: ${error.message}\n`);
    return EXIT.failed;
  }
  return EXIT.ok;
}

function moduleOf({ spec, sideTable, source }: Scenario, name: string): ModuleSpec {
  const all = [...spec.modules, ...(spec.spares ?? []), ...sideTable];
  const module = all.find(({ id }) => id === name);
  if (module !== undefined) return module;
  throw new InputError([
    {
      code: 'unknown_name',
      path: '--bench',
      file: source.file,
      rule: `there is no module "${name}"`,
      hint: suggest(
        name,
        all.map(({ id }) => id),
      ),
    },
  ]);
}
