import { readFileSync } from 'node:fs';
import { bundle, OWN_REQUIRE } from './bundle.mjs';

// The command, its worker threads and the public index. All in one folder: threads are looked for beside who starts them.
await bundle('sim-core', {
  entryPoints: [
    'src/cli/main.ts',
    'src/index.ts',
    'src/experiments/looseThread.ts',
    'src/experiments/replicationWorker.ts',
    'src/experiments/studyWorker.ts',
  ],
  // The one finds its own files beside itself, the other comes without a file of its license.
  external: ['tinypool', 'seedrandom'],
  plugins: [{ name: 'special functions go in', setup: takeSpecialFunctionsIn }],
});

/** What a module asks of its own require is left alone by esbuild; what it asks of the general one is taken in. */
function takeSpecialFunctionsIn({ onLoad }) {
  onLoad({ filter: /\/specialFunctions\.ts$/ }, ({ path }) => {
    const code = readFileSync(path, 'utf8');
    if (!code.includes(OWN_REQUIRE)) throw new Error(`${path} does not say ${OWN_REQUIRE}`);
    return { contents: code.replace(OWN_REQUIRE, ''), loader: 'ts' };
  });
}
