import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

/*
 * Puts `lapwright check` into one file, dist/check.js. It is asked again and again while a scenario is written, and to find
 * and open its 300 files, most of them of packages, takes longer than all it does with them. Part of npm run build.
 */
const home = fileURLToPath(new URL('..', import.meta.url));
const OWN_REQUIRE = 'const require = createRequire(import.meta.url);';

const { metafile, outputFiles } = await build({
  absWorkingDir: home,
  entryPoints: ['src/cli/checkCommand.ts'],
  outfile: 'dist/check.js',
  bundle: true,
  platform: 'node',
  format: 'esm',
  target: 'node20',
  metafile: true,
  write: false,
  // Loaded at first use, as everywhere: check has no use for them.
  external: ['@stdlib/stats-*', '@stdlib/math-base-special-betainc'],
  // Packages in CommonJS ask for modules of Node by this name.
  banner: {
    js: `import { createRequire as requireFor } from 'node:module';\n${OWN_REQUIRE.replace('createRequire', 'requireFor')}`,
  },
  plugins: [
    { name: 'errors stay outside', setup: leaveErrorsOutside },
    { name: 'special functions go in', setup: takeSpecialFunctionsIn },
  ],
});
writeFileSync(join(home, 'dist/check.js'), `${licenses()}${outputFiles[0].text}`);

/** The command line knows faults of a file by their class, so there must be only one of it. */
function leaveErrorsOutside({ onResolve }) {
  onResolve({ filter: /\/errors\/index\.js$/ }, () => ({ path: './errors/index.js', external: true }));
}

/** What a module asks of its own require is left alone by esbuild; what it asks of the general one is taken in. */
function takeSpecialFunctionsIn({ onLoad }) {
  onLoad({ filter: /\/specialFunctions\.ts$/ }, ({ path }) => {
    const code = readFileSync(path, 'utf8');
    if (!code.includes(OWN_REQUIRE)) throw new Error(`${path} does not say ${OWN_REQUIRE}`);
    return { contents: code.replace(OWN_REQUIRE, ''), loader: 'ts' };
  });
}

/** The licenses of the packages in the bundle, which ask to go with every copy, as comments; many packages share one. */
function licenses() {
  const packages = Object.keys(metafile.inputs).flatMap(
    (input) => /^.*node_modules\/(?:@[^/]+\/)?[^/]+\//.exec(input) ?? [],
  );
  const holders = new Map();
  for (const folder of new Set(packages)) {
    const files = readdirSync(join(home, folder)).filter((name) => /^(license|notice)/i.test(name));
    if (files.length === 0) throw new Error(`${folder} has no license to go with the bundle`);
    const text = files.map((name) => readFileSync(join(home, folder, name), 'utf8')).join('\n');
    const name = folder.replace(/^.*node_modules\/|\/$/g, '');
    holders.set(text, [...(holders.get(text) ?? []), name]);
  }
  return [...holders].map(([text, names]) => `/*\n${names.join(', ')}\n\n${text}*/\n`).join('');
}
