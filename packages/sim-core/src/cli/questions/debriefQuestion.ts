import { debriefAnswer } from '../../answers/index.js';
import { byBuilder, moduleDebriefs } from '../../debrief/index.js';
import { InputError } from '../../errors/index.js';
import type { ModuleRecord, ReadLog } from '../../logs/index.js';
import { type Scenario, suggest } from '../../scenario/index.js';
import { type MendFirst, mendFirst, type Study } from '../../studies/index.js';
import { knownModules, readLogs } from '../readLogs.js';
import type { Ask } from './askedScenario.js';

/** How a show is told afterwards. */
export interface DebriefQuestionOptions {
  /** The scenario of the show: who built what, and what mending would bring. @default nothing is simulated */
  readonly scenario?: Scenario;
  /** Shows of each at most, for what mending would bring. */
  readonly replications: number;
  /** What mending is measured by. */
  readonly on: string;
  /** The builder whose page is wanted. @default all */
  readonly builder?: string;
  /** What the logs are called in the answer. @default their paths */
  readonly names?: readonly string[];
}

/**
 * What each module did at a show.
 *
 * @throws InputError when a log cannot be read, or the builder has no module in it
 * @example
 * const { log } = debriefQuestion(['scenarios/demo-weekend.csv'], { replications: 2, on: 'spills_per_hour' });
 * log.used === log.rows // => true
 */
export function debriefQuestion(
  logs: readonly string[],
  { scenario, replications, on, builder, names = logs }: DebriefQuestionOptions,
): { readonly log: ReadLog; readonly ask: Ask } {
  const log = readLogs(logs, scenario === undefined ? [] : knownModules(scenario));
  const modules = moduleDebriefs(recordsOf(log, scenario));
  const builders = byBuilder(modules).map((one) => one.builder);
  if (builder !== undefined && !builders.includes(builder)) throw unknownBuilder(builder, builders, logs);
  return {
    log,
    ask: async (study) =>
      debriefAnswer(modules, {
        name: scenario?.name ?? names.join(', '),
        gains: scenario === undefined ? null : await gainsOf(study, scenario, modules, { replications, on }),
      }),
  };
}

/** The records of a show, or of the bench if there was none; modules of the loop of which the log says nothing did not stop. */
function recordsOf({ records, sessions }: ReadLog, scenario: Scenario | undefined): ModuleRecord[] {
  const shows = records.filter(({ where }) => where === 'show');
  const told = shows.length > 0 ? shows : records;
  const silent = (scenario?.spec.modules ?? []).filter(({ id }) => !told.some(({ module }) => module === id));
  return [
    ...told.map((record) => {
      const builder =
        record.builder ?? scenario?.spec.modules.find(({ id }) => id === record.module)?.builder;
      return { ...record, ...(builder !== undefined && { builder }) };
    }),
    ...(shows.length === 0
      ? []
      : silent.map(({ id, builder }): ModuleRecord => ({
          module: id,
          ...(builder !== undefined && { builder }),
          where: 'show',
          watched: sessions,
          batches: [],
          stops: [],
          spills: [],
        }))),
  ];
}

async function gainsOf(
  study: Study,
  { spec }: Scenario,
  modules: readonly { readonly module: string; readonly stops: number }[],
  { replications, on }: { readonly replications: number; readonly on: string },
): Promise<MendFirst | null> {
  if (modules.every(({ stops }) => stops === 0)) return null;
  return mendFirst(study, spec, { replications, on, places: 3 });
}

function unknownBuilder(
  name: string,
  builders: readonly (string | null)[],
  logs: readonly string[],
): InputError {
  const known = builders.flatMap((one) => one ?? []);
  return new InputError([
    {
      code: 'unknown_name',
      path: '--builder',
      file: logs.join(', '),
      rule: `"${name}" has no module here`,
      hint:
        known.length === 0
          ? 'The logs name no builder: write "# builder: name" at the head, or name the scenario with --loop.'
          : suggest(name, known),
    },
  ]);
}
