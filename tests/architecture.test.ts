import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, posix, relative, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const ROOT = resolve(dirname(fileURLToPath(import.meta.url)), '..');

/** What each folder may import, besides itself. Imports go one way: from below to above in these lists. */
const SIM_CORE: Readonly<Record<string, readonly string[]>> = {
  errors: [],
  threads: [],
  units: ['errors'],
  numerics: ['errors'],
  kernel: ['errors'],
  random: ['numerics', 'errors'],
  distributions: ['numerics', 'errors'],
  statistics: ['distributions', 'numerics', 'errors'],
  'model/spec': ['distributions', 'units', 'errors'],
  model: ['model/spec', 'kernel', 'random', 'distributions', 'numerics', 'statistics', 'units', 'errors'],
  orders: ['errors'],
  scenario: ['orders', 'model/spec', 'distributions', 'units', 'errors'],
  changes: ['scenario', 'model/spec', 'units', 'errors'],
  estimates: ['model/spec', 'distributions', 'numerics', 'units', 'errors'],
  logs: ['units', 'errors'],
  doubt: ['model/spec', 'random', 'distributions', 'numerics', 'errors'],
  experiments: [
    'threads',
    'doubt',
    'distributions',
    'model',
    'model/spec',
    'scenario',
    'random',
    'statistics',
    'numerics',
    'estimates',
    'errors',
  ],
  calibration: ['logs', 'model/spec', 'random', 'distributions', 'statistics', 'numerics', 'units', 'errors'],
  debrief: ['calibration', 'logs', 'statistics', 'units', 'errors'],
  findings: ['experiments', 'estimates', 'model/spec', 'statistics', 'units', 'errors'],
  replay: ['experiments', 'scenario', 'model', 'model/spec', 'random', 'distributions', 'units', 'errors'],
  studies: [
    'doubt',
    'findings',
    'experiments',
    'estimates',
    'orders',
    'model/spec',
    'random',
    'distributions',
    'statistics',
    'numerics',
    'units',
    'errors',
  ],
  answers: [
    'calibration',
    'distributions',
    'debrief',
    'studies',
    'findings',
    'experiments',
    'estimates',
    'orders',
    'model/spec',
    'random',
    'statistics',
    'units',
    'errors',
  ],
  cli: [
    'calibration',
    'distributions',
    'debrief',
    'logs',
    'answers',
    'studies',
    'changes',
    'replay',
    'findings',
    'experiments',
    'estimates',
    'logs',
    'changes',
    'scenario',
    'orders',
    'model',
    'model/spec',
    'statistics',
    'units',
    'errors',
  ],
};

const SIM_NOTEBOOKS: Readonly<Record<string, readonly string[]>> = {
  theme: [],
  rows: [],
  words: ['rows', 'theme'],
  charts: ['rows', 'theme', 'words'],
  render: ['charts', 'theme'],
  report: ['rows', 'words', 'charts', 'render', 'theme'],
  display: [],
  session: ['report', 'display', 'render', 'charts', 'words', 'rows', 'theme'],
  jupyter: [],
};

/** Packages from outside and built-in modules that only certain folders may use. */
const RESERVED: Readonly<Record<string, readonly string[]>> = {
  seedrandom: ['random'],
  'node:worker_threads': ['threads'],
  'node:fs': ['scenario', 'cli', 'session', 'jupyter'],
  'node:child_process': ['jupyter'],
  '@resvg/resvg-js': ['display'],
  papaparse: ['logs'],
  yaml: ['scenario'],
  commander: ['cli'],
  vega: ['render'],
  'vega-lite': ['render'],
};

interface Import {
  readonly file: string;
  readonly from: string;
  readonly to: string;
}

function sources(folder: string): string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.ts'))
    .map((entry) => join(entry.parentPath, entry.name));
}

/** Every import and re-export of a file, types included, static or dynamic. */
function importsOf(file: string): string[] {
  const text = readFileSync(file, 'utf8').replaceAll(/\/\*[\s\S]*?\*\//g, '');
  return [...text.matchAll(/(?:\bfrom\s*|\bimport\s*\(\s*|\bimport\s+)'([^']+)'/g)].map(
    (match) => match[1] ?? '',
  );
}

/** The layer a file belongs to: the longest listed folder that holds it, '' for the index at the top. */
function layerOf(path: string, layers: readonly string[]): string {
  const folder = posix.dirname(path.split(sep).join('/'));
  return (
    layers
      .filter((layer) => folder === layer || folder.startsWith(`${layer}/`))
      .toSorted((a, b) => b.length - a.length)[0] ?? ''
  );
}

function scan(packageName: string, layers: readonly string[]): { inside: Import[]; outside: Import[] } {
  const source = join(ROOT, 'packages', packageName, 'src');
  const inside: Import[] = [];
  const outside: Import[] = [];
  for (const file of sources(source)) {
    const path = relative(source, file);
    const from = layerOf(path, layers);
    for (const name of importsOf(file)) {
      if (name.startsWith('.'))
        inside.push({
          file: path,
          from,
          to: layerOf(relative(source, resolve(dirname(file), name)), layers),
        });
      else outside.push({ file: path, from, to: name });
    }
  }
  return { inside, outside };
}

describe.each([
  ['sim-core', SIM_CORE],
  ['sim-notebooks', SIM_NOTEBOOKS],
])('%s', (packageName, rules) => {
  const layers = Object.keys(rules);
  const { inside, outside } = scan(packageName, layers);

  it('has no source outside the listed folders but the index', () => {
    const strays = sources(join(ROOT, 'packages', packageName, 'src'))
      .map((file) => relative(join(ROOT, 'packages', packageName, 'src'), file))
      .filter((path) => layerOf(path, layers) === '' && path !== 'index.ts');
    expect(strays).toEqual([]);
  });

  it('imports one way only', () => {
    expect(inside.length).toBeGreaterThan(20);
    const wrong = inside.filter(
      ({ from, to }) => from !== '' && from !== to && !(rules[from] ?? []).includes(to),
    );
    expect(wrong).toEqual([]);
  });

  it('has rules without circles: a folder may only use folders listed before it', () => {
    for (const [i, layer] of layers.entries()) {
      for (const used of rules[layer] ?? [])
        expect(layers.indexOf(used), `${layer} uses ${used}`).toBeLessThan(i);
    }
  });

  it('uses packages from outside only where they belong', () => {
    const wrong = outside.filter(({ from, to }) => {
      const name = Object.keys(RESERVED).find((reserved) => to === reserved || to.startsWith(`${reserved}/`));
      return name !== undefined && !(RESERVED[name] ?? []).includes(from);
    });
    expect(wrong).toEqual([]);
  });

  it('names the other package only from above, and only by its public name', () => {
    const others = outside.filter(({ to }) => to.startsWith('@lapwright/'));
    if (packageName === 'sim-core') expect(others).toEqual([]);
    else for (const { to } of others) expect(to).toBe('@lapwright/sim-core');
  });
});
