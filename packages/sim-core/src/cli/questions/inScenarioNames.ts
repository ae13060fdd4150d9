import { type ModuleRecord, plainName, type WrittenName } from '../../logs/index.js';
import { nameFrom } from '../../scenario/index.js';

/**
 * Records with their modules and causes under names that a scenario file can have: people write "ball stuck" into a log.
 * Where two names become one that way, that is told too.
 *
 * @param written where each name stands in the logs
 * @returns the records, and what was renamed or became one, in words
 * @example
 * const record = { module: 'lift', where: 'bench', watched: [], batches: [], spills: [], stops: [{ cause: 'ball stuck', from: 1, cleared: 2 }] };
 * inScenarioNames([record]).renamed // => ['the cause "ball stuck" is called ball-stuck in the scenario']
 */
export function inScenarioNames(
  records: readonly ModuleRecord[],
  written: readonly WrittenName[] = [],
): {
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
    renamed: [
      ...told('module', modules),
      ...told('cause', causes),
      ...joined('module', modules, written),
      ...joined('cause', causes, written),
    ],
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

/** Names that were several in the logs and are one in the scenario. */
function joined(
  what: WrittenName['kind'],
  names: ReadonlyMap<string, string>,
  written: readonly WrittenName[],
): string[] {
  const place = (said: string): string => {
    const found = written.find(
      // A module goes by one name however it is spelt.
      ({ kind, name }) =>
        kind === what && (what === 'cause' ? name === said : plainName(name) === plainName(said)),
    );
    return `"${said.slice(0, 60)}"${found === undefined ? '' : ` (${found.file}:${found.line})`}`;
  };
  return [...new Set(names.values())].flatMap((name) => {
    const said = [...names].filter(([, one]) => one === name).map(([one]) => one);
    return said.length < 2
      ? []
      : [
          `the ${what}s ${said.map(place).join(' and ')} are one in the scenario, ${name}: what was seen of them is taken together. If they are not the same, give one another name in the log`,
        ];
  });
}
