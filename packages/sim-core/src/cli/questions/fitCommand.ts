import { fitAnswer, toAnswer } from '../../answers/index.js';
import {
  fitModule,
  type ModuleFit,
  moduleFigures,
  poolByDesign,
  type StopClock,
} from '../../calibration/index.js';
import { InputError, ParameterError } from '../../errors/index.js';
import type { ModuleRecord, ReadLog } from '../../logs/index.js';
import type { ModuleSpec } from '../../model/spec/index.js';
import {
  loadScenarioFile,
  readScenarioText,
  type Scenario,
  suggest,
  withFigures,
} from '../../scenario/index.js';
import { EXIT, type ExitCode } from '../exitCode.js';
import { checkOutputPaths } from '../outputPaths.js';
import { knownModules, logReadText, readLogs } from '../readLogs.js';
import { requireCharts } from '../reportWriter.js';
import { writeOutput } from '../writeOutput.js';
import { answerText } from './answerText.js';
import { sameAgain } from './sameAgain.js';
import { scenarioReference } from './scenarioReference.js';

/** Options of the fit command, as the command line gives them. */
export interface FitCommandOptions {
  readonly loop?: string;
  readonly into?: string;
  readonly module?: readonly string[];
  readonly clock: StopClock;
  readonly batch?: number;
  readonly reach: number;
  readonly seed: number;
  readonly json?: true | string;
  readonly report?: string;
}

/** `lapwright fit`: what logs say of modules, with what they leave open; into a scenario if asked. */
export async function fitCommand(
  logs: readonly string[],
  options: FitCommandOptions,
  args: readonly string[],
): Promise<ExitCode> {
  const { loop, into, json, report } = options;
  if (into !== undefined && loop === undefined)
    throw new InputError([
      {
        code: 'missing_key',
        path: '--loop',
        rule: '--into needs the scenario that the figures are put into',
        hint: 'Name it with --loop my-loop.yaml; it stays as it is.',
      },
    ]);
  const scenario = loop === undefined ? undefined : loadScenarioFile(loop);
  checkOutputPaths(
    { '--json': typeof json === 'string' ? json : undefined, '--report': report, '--into': into },
    [...(loop === undefined ? [] : [loop]), ...logs],
  );
  const charts = report === undefined ? undefined : await requireCharts();
  const log = readWith(logs, scenario);
  process.stderr.write(logReadText(log));
  const records = chosen(log.records, options, logs);
  const fits = fitsOf(records, scenario, options);
  const pools = poolByDesign(fits);
  const text =
    into === undefined || loop === undefined || fits.length === 0
      ? undefined
      : withFigures(
          readScenarioText(loop).text,
          into,
          fits.map((fit) => ({
            module: fit.module,
            ...(fit.builder !== undefined && { builder: fit.builder }),
            ...(fit.design !== undefined && { design: fit.design }),
            figures: moduleFigures(
              fit,
              pools.flatMap(({ modules }) => modules).find(({ module }) => module === fit.module),
              causesOf(scenario, fit.module),
            ),
          })),
        );
  const name = logs.length === 1 ? (logs[0] ?? '') : `${logs.length} logs`;
  const answer = toAnswer(
    fitAnswer(fits, pools, {
      log: name,
      leftOut: log.rows - log.used,
      into: text === undefined ? null : (into ?? null),
    }),
    { seed: options.seed, scenarios: scenario === undefined ? [] : [scenarioReference(scenario)], shows: 0 },
  );
  const told = `${JSON.stringify(answer, null, 2)}\n`;
  process.stdout.write(json === true ? told : answerText(answer));
  let ok = true;
  if (into !== undefined && text !== undefined) ok = await writeOutput(into, () => text);
  if (typeof json === 'string') ok = (await writeOutput(json, () => told)) && ok;
  if (report !== undefined && charts !== undefined)
    ok = (await writeOutput(report, () => charts.answerReport({ answer, command: sameAgain(args) }))) && ok;
  return ok ? EXIT.ok : EXIT.failed;
}

/** What is on a bench may be new to the loop; at the show only what the scenario knows can stand. */
function readWith(logs: readonly string[], scenario: Scenario | undefined): ReadLog {
  const any = readLogs(logs);
  if (scenario === undefined || any.records.every(({ where }) => where === 'bench')) return any;
  const bench = any.records.flatMap(({ where, module }) => (where === 'bench' ? [{ id: module }] : []));
  return readLogs(logs, [...knownModules(scenario), ...bench]);
}

/** The records of the modules that are asked about. */
function chosen(
  records: readonly ModuleRecord[],
  { module: wanted = [] }: FitCommandOptions,
  logs: readonly string[],
): readonly ModuleRecord[] {
  const known = [...new Set(records.map(({ module }) => module))];
  const unknown = wanted.filter((name) => !known.includes(name));
  if (unknown.length > 0)
    throw new InputError(
      unknown.map((name) => ({
        code: 'unknown_name' as const,
        path: '--module',
        file: logs.join(', '),
        found: name,
        rule: 'no log tells of this module',
        hint: known.length === 0 ? 'No module was watched in these logs.' : suggest(name, known),
      })),
    );
  return wanted.length === 0 ? records : records.filter(({ module }) => wanted.includes(module));
}

/** Fits module by module; one that never ran while somebody watched is left out. */
function fitsOf(
  records: readonly ModuleRecord[],
  scenario: Scenario | undefined,
  { clock, batch, reach, seed }: FitCommandOptions,
): ModuleFit[] {
  return [...new Set(records.map(({ module }) => module))].flatMap((module) => {
    const own = records.filter((record) => record.module === module);
    const seen = new Set(own.flatMap(({ stops }) => stops.map(({ cause }) => cause)));
    const causes = causesOf(scenario, module);
    try {
      return [
        fitModule(own, {
          seed,
          reachSeconds: reach,
          causes,
          clocks: Object.fromEntries([...seen, ...causes].map((cause) => [cause, clock])),
          ...(batch !== undefined && { batch }),
        }),
      ];
    } catch (error) {
      if (!(error instanceof ParameterError)) throw error;
      process.stderr.write(`lapwright: ${module} is left out: ${error.message}\n`);
      return [];
    }
  });
}

/** Causes of stopping by chance that the scenario gives a module. */
function causesOf(scenario: Scenario | undefined, module: string): string[] {
  if (scenario === undefined) return [];
  const { spec, sideTable } = scenario;
  const all: readonly ModuleSpec[] = [...spec.modules, ...sideTable, ...(spec.spares ?? [])];
  const known = all.find(({ id }) => id === module);
  return (known?.stops ?? []).flatMap(({ id, trigger }) => (trigger.kind === 'at' ? [] : [id]));
}
