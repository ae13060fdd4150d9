import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

/**
 * Puts a package into few files, dist/bundle/: to find and open a thousand small files, most of them of packages from outside,
 * takes longer than most commands do with them. What entries have in common they share, so that each class is there once.
 * Part of npm run build.
 *
 * @param name of the package's folder
 * @param options of esbuild: its entries, and what stays outside
 * @param aside options for one more file of its own, which is loaded when it is asked for
 */
export async function bundle(name, options, aside) {
  const home = fileURLToPath(new URL(`../../${name}`, import.meta.url));
  // Not the files of an earlier build, which nothing would import any more.
  rmSync(join(home, 'dist/bundle'), { recursive: true, force: true });
  const common = {
    absWorkingDir: home,
    outdir: 'dist/bundle',
    bundle: true,
    platform: 'node',
    target: 'node20',
    sourcemap: true,
    sourcesContent: false,
    metafile: true,
  };
  const { metafile } = await build({
    ...common,
    entryNames: '[name]',
    chunkNames: 'shared-[hash]',
    splitting: true,
    format: 'esm',
    // Packages in CommonJS ask for modules of Node by this name.
    banner: {
      js: `import { createRequire as requireFor } from 'node:module';\nconst require = requireFor(import.meta.url);`,
    },
    ...options,
  });
  const more = aside && (await build({ ...common, format: 'cjs', ...aside }));
  const inputs = Object.keys({ ...metafile.inputs, ...more?.metafile.inputs });
  writeFileSync(join(home, 'dist/bundle/LICENSES.txt'), licenses(home, inputs));
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
