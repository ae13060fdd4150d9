import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

/*
 * Puts each package into few files, dist/bundle/: to find and open a thousand small files, most of them of packages from
 * outside, takes longer than most commands do with them. What entries have in common they share, so that each class is there
 * once. Part of npm run build.
 */
const OWN_REQUIRE = 'const require = createRequire(import.meta.url);';

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

await bundle('sim-notebooks', {
  entryPoints: ['src/index.ts'],
  external: ['@lapwright/sim-core', '@resvg/resvg-js'],
});

async function bundle(name, options) {
  const home = fileURLToPath(new URL(`../packages/${name}`, import.meta.url));
  // Not the files of an earlier build, which nothing would import any more.
  rmSync(join(home, 'dist/bundle'), { recursive: true, force: true });
  const { metafile } = await build({
    absWorkingDir: home,
    outdir: 'dist/bundle',
    entryNames: '[name]',
    chunkNames: 'shared-[hash]',
    bundle: true,
    splitting: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    sourcemap: true,
    sourcesContent: false,
    metafile: true,
    // Packages in CommonJS ask for modules of Node by this name.
    banner: {
      js: `import { createRequire as requireFor } from 'node:module';\n${OWN_REQUIRE.replace('createRequire', 'requireFor')}`,
    },
    ...options,
  });
  writeFileSync(join(home, 'dist/bundle/LICENSES.txt'), licenses(home, Object.keys(metafile.inputs)));
}

/** What a module asks of its own require is left alone by esbuild; what it asks of the general one is taken in. */
function takeSpecialFunctionsIn({ onLoad }) {
  onLoad({ filter: /\/specialFunctions\.ts$/ }, ({ path }) => {
    const code = readFileSync(path, 'utf8');
    if (!code.includes(OWN_REQUIRE)) throw new Error(`${path} does not say ${OWN_REQUIRE}`);
    return { contents: code.replace(OWN_REQUIRE, ''), loader: 'ts' };
  });
}

/** The licenses of the packages in a bundle, which ask to go with every copy; many packages share one. */
function licenses(home, inputs) {
  const packages = inputs.flatMap((input) => /^.*node_modules\/(?:@[^/]+\/)?[^/]+\//.exec(input) ?? []);
  const holders = new Map();
  for (const folder of new Set(packages)) {
    const files = readdirSync(join(home, folder)).filter((file) => /^(license|notice)/i.test(file));
    if (files.length === 0) throw new Error(`${folder} has no license to go with the bundle`);
    const text = files.map((file) => readFileSync(join(home, folder, file), 'utf8')).join('\n');
    const name = folder.replace(/^.*node_modules\/|\/$/g, '');
    holders.set(text, [...(holders.get(text) ?? []), name]);
  }
  return [...holders].map(([text, names]) => `${names.join(', ')}\n\n${text}`).join('\n\n');
}
