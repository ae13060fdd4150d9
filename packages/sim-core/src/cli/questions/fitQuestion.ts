import { type AnswerParts, fitAnswer, watchedFor } from '../../answers/index.js';
import {
  type DesignPool,
  fitModule,
  type ModuleFit,
  moduleFigures,
  poolByDesign,
  type PooledModule,
  runningTime,
  type StopClock,
  type UnseenCause,
  unseenCauses,
} from '../../calibration/index.js';
import { InputError, ParameterError } from '../../errors/index.js';
import type { ModuleRecord, ReadLog } from '../../logs/index.js';
import type { ModuleSpec } from '../../model/spec/index.js';
import { type Scenario, suggest, withFigures } from '../../scenario/index.js';
import { knownModules, readLogs } from '../readLogs.js';
import { inScenarioNames } from './inScenarioNames.js';

/** How logs are to be fitted. */
export interface FitQuestionOptions {
  /** Only these modules. @default all that the logs tell of */
  readonly modules?: readonly string[];
  /** By what stops are counted. @default running */
  readonly clock?: StopClock;
  /** Most balls it lifts at once. @default the most that were seen */
  readonly batch?: number;
  /** Seconds of a stop until a hand was there. @default 0 */
  readonly reach?: number;
  /** Of the tests of fit. @default 1 */
  readonly seed?: number;
}

/** What logs say of modules. */
export interface FittedLogs {
  readonly log: ReadLog;
  readonly fits: readonly ModuleFit[];
  readonly pools: readonly DesignPool[];
  /** Of each fitted module of the scenario, causes that the scenario gives it and nobody saw. */
  readonly unseen: ReadonlyMap<string, readonly UnseenCause[]>;
  /** Modules that could not be fitted, each with the reason. */
  readonly leftOut: readonly string[];
  /** Names that no scenario file can have, each with the one that stands for it; and names that became one. */
  readonly renamed: readonly string[];
}

/**
 * Reads logs and fits what they tell of each module.
 *
 * @param scenario what they are of, where that is known: causes of stopping that it gives a module and that were not seen count too
 * @throws InputError when a log cannot be read, or a module that is asked about is in none
 * @example
 * const { fits } = fitLogs(['scenarios/lantern-stairs-bench.csv']);
 * fits.map(({ module }) => module) // => ['lantern-stairs']
 */
export function fitLogs(
  logs: readonly string[],
  scenario?: Pick<Scenario, 'spec' | 'sideTable'>,
  options: FitQuestionOptions = {},
): FittedLogs {
  const log = readWith(logs, scenario);
  const leftOut: string[] = [];
  const wanted = chosen(log.records, options.modules ?? [], logs);
  const { records, renamed } =
    scenario === undefined ? { records: wanted, renamed: [] } : inScenarioNames(wanted, log.written);
  const fits = [...new Set(records.map(({ module }) => module))].flatMap((module) => {
    try {
      const own = records.filter((record) => record.module === module);
      if (own.every((record) => runningTime(record).runningSeconds === 0)) {
        leftOut.push(`${module} is left out: nobody watched it while it ran`);
        return [];
      }
      return [fitOne(own, causesOf(scenario, module), options)];
    } catch (error) {
      if (!(error instanceof ParameterError)) throw error;
      leftOut.push(`${module} is left out: ${error.message}`);
      return [];
    }
  });
  const pools = poolByDesign(fits);
  const unseen = new Map(
    fits.flatMap((fit) => {
      const module = moduleOf(scenario, fit.module);
      return module === undefined
        ? []
        : [[fit.module, unseenCauses(fit, module, pooledOf(pools, fit.module))] as const];
    }),
  );
  return { log, fits, pools, unseen, leftOut, renamed };
}

/**
 * The text of a scenario with what logs say of its modules put in.
 *
 * @param file name of what comes out, for messages
 * @throws InputError when what comes out is not in order
 * @example
 * const { scenario, text } = askedFile('scenarios/village-hall.yaml');
 * const fitted = fitLogs(['scenarios/lantern-stairs-bench.csv'], scenario);
 * parseScenario(scenarioWithFits(text, 'hall.yaml', scenario, fitted)).counted.length // => 1
 */
export function scenarioWithFits(
  text: string,
  file: string,
  scenario: Pick<Scenario, 'spec' | 'sideTable'>,
  { fits, pools, unseen }: FittedLogs,
): string {
  return withFigures(
    text,
    file,
    fits.map((fit) => {
      const stays = (unseen.get(fit.module) ?? []).filter((one) => one.stays).map(({ cause }) => cause);
      return {
        module: fit.module,
        ...(fit.builder !== undefined && { builder: fit.builder }),
        ...(fit.design !== undefined && { design: fit.design }),
        figures: moduleFigures(fit, pooledOf(pools, fit.module), causesOf(scenario, fit.module), stays),
        stays: Object.fromEntries(
          fit.causes
            .filter(({ cause }) => stays.includes(cause))
            .map((cause) => [
              cause.cause,
              `none seen in ${watchedFor(cause)}: too short to say anything against this`,
            ]),
        ),
      };
    }),
  );
}

function pooledOf(pools: readonly DesignPool[], name: string): PooledModule | undefined {
  return pools.flatMap(({ modules }) => modules).find(({ module }) => module === name);
}

/**
 * What is to be told of fitted logs.
 *
 * @param into name of the scenario that the figures were put into; null when in none
 * @example
 * const logs = ['scenarios/lantern-stairs-bench.csv'];
 * fittedParts(logs, fitLogs(logs), null).verdict // => 'fitted'
 */
export function fittedParts(
  logs: readonly string[],
  { log, fits, pools, unseen }: FittedLogs,
  into: string | null,
): AnswerParts {
  const name = logs.length === 1 ? (logs[0] ?? '') : `${logs.length} logs`;
  return fitAnswer(fits, pools, { log: name, leftOut: log.rows - log.used, into, unseen });
}

/** What is on a bench may be new to the loop; at the show only what the scenario knows can stand. */
function readWith(
  logs: readonly string[],
  scenario: Pick<Scenario, 'spec' | 'sideTable'> | undefined,
): ReadLog {
  const any = readLogs(logs);
  if (scenario === undefined || any.records.every(({ where }) => where === 'bench')) return any;
  const bench = any.records.flatMap(({ where, module }) => (where === 'bench' ? [{ id: module }] : []));
  return readLogs(logs, [...knownModules(scenario), ...bench]);
}

/** The records of the modules that are asked about. */
function chosen(
  records: readonly ModuleRecord[],
  wanted: readonly string[],
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
        rule: `no log tells of a module "${name}"`,
        hint: known.length === 0 ? 'No module was watched in these logs.' : suggest(name, known),
      })),
    );
  return wanted.length === 0 ? records : records.filter(({ module }) => wanted.includes(module));
}

function fitOne(
  records: readonly ModuleRecord[],
  causes: readonly string[],
  { clock = 'running', batch, reach = 0, seed = 1 }: FitQuestionOptions,
): ModuleFit {
  const seen = records.flatMap(({ stops }) => stops.map(({ cause }) => cause));
  return fitModule(records, {
    seed,
    reachSeconds: reach,
    causes,
    clocks: Object.fromEntries([...seen, ...causes].map((cause) => [cause, clock])),
    ...(batch !== undefined && { batch }),
  });
}

/** Causes of stopping by chance that the scenario gives a module. */
function causesOf(scenario: Pick<Scenario, 'spec' | 'sideTable'> | undefined, module: string): string[] {
  return (moduleOf(scenario, module)?.stops ?? []).flatMap(({ id, trigger }) =>
    trigger.kind === 'at' ? [] : [id],
  );
}

function moduleOf(
  scenario: Pick<Scenario, 'spec' | 'sideTable'> | undefined,
  module: string,
): ModuleSpec | undefined {
  if (scenario === undefined) return undefined;
  const { spec, sideTable } = scenario;
  const all: readonly ModuleSpec[] = [...spec.modules, ...sideTable, ...(spec.spares ?? [])];
  return all.find(({ id }) => id === module);
}
