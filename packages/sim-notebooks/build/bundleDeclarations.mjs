import { readdirSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/*
 * Puts the declarations of this package, and what they need of sim-core's, into one file, dist/whole.d.ts. The compiler in
 * the kernel reads them in the first cell of every notebook, and to find and open the 480 files they are made of takes it
 * three times as long. Whoever resolves by "exports", as our own compiler does, reads the files themselves. Part of npm run
 * build.
 */
const packages = fileURLToPath(new URL('../..', import.meta.url));
const folders = ['sim-core', 'sim-notebooks'].map((name) => join(packages, name, 'dist'));
const whole = join(packages, 'sim-notebooks/dist/whole.d.ts');

if (youngest(folders) > (statSync(whole, { throwIfNoEntry: false })?.mtimeMs ?? 0)) await writeWhole();

/** When a declaration was last written, in milliseconds. */
function youngest(folders) {
  const files = folders.flatMap((folder) =>
    readdirSync(folder, { recursive: true }).map((name) => join(folder, name)),
  );
  return Math.max(
    ...files.filter((file) => file.endsWith('.d.ts') && file !== whole).map((file) => statSync(file).mtimeMs),
  );
}

async function writeWhole() {
  const [{ rollup }, { dts }] = await Promise.all([import('rollup'), import('rollup-plugin-dts')]);
  rmSync(whole, { force: true });
  const bundle = await rollup({
    input: join(packages, 'sim-notebooks/dist/index.d.ts'),
    plugins: [dts({ includeExternal: ['@lapwright/sim-core'] })],
    onwarn: (warning) => {
      throw new Error(`declarations of sim-notebooks: ${warning.message}`);
    },
  });
  await bundle.write({ file: whole, format: 'es' });
}
