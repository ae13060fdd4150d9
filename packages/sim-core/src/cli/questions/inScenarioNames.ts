import type { ModuleRecord } from '../../logs/index.js';
import { nameFrom } from '../../scenario/index.js';

/**
 * Records with their modules and causes under names that a scenario file can have: people write "ball stuck" into a log.
 *
 * @returns the records, and what was renamed, in words
 * @example
 * const record = { module: 'lift', where: 'bench', watched: [], batches: [], spills: [], stops: [{ cause: 'ball stuck', from: 1, cleared: 2 }] };
 * inScenarioNames([record]).renamed // => ['the cause "ball stuck" is called ball-stuck in the scenario']
 */
export function inScenarioNames(records: readonly ModuleRecord[]): {
  readonly records: readonly ModuleRecord[];
  readonly renamed: readonly string[];
} {
  const modules = namesOf(
    records.map(({ module }) => module),
    'module',
  );
  const causes = namesOf(
    records.flatMap(({ stops }) => stops.map(({ cause }) => cause)),
    'cause',
  );
  return {
    records: records.map((record) => ({
      ...record,
      module: modules.get(record.module) ?? record.module,
      stops: record.stops.map((stop) => ({ ...stop, cause: causes.get(stop.cause) ?? stop.cause })),
    })),
    renamed: [...told('module', modules), ...told('cause', causes)],
  };
}

function namesOf(all: readonly string[], what: string): ReadonlyMap<string, string> {
  let nameless = 0;
  return new Map([...new Set(all)].map((said) => [said, nameFrom(said) ?? `${what}-${String(++nameless)}`]));
}

function told(what: string, names: ReadonlyMap<string, string>): string[] {
  return [...names]
    .filter(([said, name]) => said !== name)
    .map(([said, name]) => `the ${what} "${said.slice(0, 60)}" is called ${name} in the scenario`);
}
