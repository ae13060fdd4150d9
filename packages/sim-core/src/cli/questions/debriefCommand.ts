import { type BuilderPage, debriefAnswer } from '../../answers/index.js';
import { byBuilder, moduleDebriefs } from '../../debrief/index.js';
import { InputError } from '../../errors/index.js';
import type { ModuleRecord, ReadLog } from '../../logs/index.js';
import { loadScenarioFile, type Scenario, suggest } from '../../scenario/index.js';
import { type MendFirst, mendFirst, type Study } from '../../studies/index.js';
import type { ExitCode } from '../exitCode.js';
import { knownModules, logReadText, readLogs } from '../readLogs.js';
import { askQuestion } from './askQuestion.js';
import type { QuestionOptions } from './questionOptions.js';
import { scenarioReference } from './scenarioReference.js';

/** Options of the debrief command, as the command line gives them. */
export interface DebriefCommandOptions extends QuestionOptions {
  readonly replications: number;
  readonly on: string;
  readonly loop?: string;
  readonly builder?: string;
}

/** `lapwright debrief`: what each module did at a show, with a page for the club and one for each builder. */
export async function debriefCommand(
  logs: readonly string[],
  options: DebriefCommandOptions,
  args: readonly string[],
): Promise<ExitCode> {
  const { loop, builder, replications, on } = options;
  const scenario = loop === undefined ? undefined : loadScenarioFile(loop);
  const log = readLogs(logs, scenario === undefined ? [] : knownModules(scenario));
  process.stderr.write(logReadText(log));
  const modules = moduleDebriefs(recordsOf(log, scenario));
  const builders = byBuilder(modules).map((one) => one.builder);
  if (builder !== undefined && !builders.includes(builder)) throw unknownBuilder(builder, builders, logs);
  return askQuestion(options, {
    scenarios: scenario === undefined ? [] : [scenarioReference(scenario)],
    reads: logs,
    args,
    ask: async (study) =>
      debriefAnswer(modules, {
        name: scenario?.name ?? logs.join(', '),
        gains: scenario === undefined ? null : await gainsOf(study, scenario, modules, { replications, on }),
      }),
    write: (charts, input) => {
      const pages = input.answer.details['pages'] as readonly BuilderPage[];
      return charts.debriefPages({
        ...input,
        pages: builder === undefined ? pages : pages.filter((page) => page.builder === builder),
        club: builder === undefined,
      });
    },
  });
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
      found: name,
      rule: 'this builder has no module here',
      hint:
        known.length === 0
          ? 'The logs name no builder: write "# builder: name" at the head, or name the scenario with --loop.'
          : suggest(name, known),
    },
  ]);
}
