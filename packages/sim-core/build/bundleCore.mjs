import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { bundle } from './bundle.mjs';

/** Where the special functions go: most commands and most shows need none, and to read them takes a while. */
const SPECIAL = 'special.cjs';
const SOURCE = 'src/numerics/specialFunctions.ts';
const REQUIRED = /require\('(@stdlib\/[^']+)'\)/g;

const home = new URL('../', import.meta.url);
const functions = [...readFileSync(new URL(SOURCE, home), 'utf8').matchAll(REQUIRED)].map(([, name]) => name);
if (functions.length === 0)
  throw new Error(`${SOURCE} requires no special function as bundleCore.mjs looks for it`);

// The command, its worker threads and the public index. All in one folder: threads are looked for beside who starts them.
await bundle(
  'sim-core',
  {
    entryPoints: ['src/cli/main.ts', 'src/index.ts', 'src/experiments/simulationWorker.ts'],
    // It comes without a file of its license.
    external: ['seedrandom'],
    plugins: [{ name: 'special functions stand aside', setup: askForSpecialFunctions }],
  },
  {
    stdin: {
      contents: `module.exports = {${functions.map((name) => `'${name}': () => require('${name}')`).join(', ')}};`,
      resolveDir: fileURLToPath(new URL('./', new URL(SOURCE, home))),
    },
    outdir: undefined,
    outfile: `dist/bundle/${SPECIAL}`,
  },
);

/** In the bundle a special function is asked of the file they stand in. */
function askForSpecialFunctions({ onLoad }) {
  onLoad({ filter: /\/specialFunctions\.ts$/ }, ({ path }) => ({
    contents: readFileSync(path, 'utf8').replace(REQUIRED, `require('./${SPECIAL}')['$1']()`),
    loader: 'ts',
  }));
}
