import { mkdirSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { delimiter, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The project that this package lies in. */
export const PROJECT: string = fileURLToPath(new URL('../../../../', import.meta.url));

/** Where the notebooks are. */
export const NOTEBOOKS: string = fileURLToPath(new URL('../../notebooks/', import.meta.url));

/** How the kernel is started: the program and its arguments; `{connection_file}` stands for the path Jupyter puts in. */
export function kernelCommand(): readonly string[] {
  const tslab = dirname(createRequire(import.meta.url).resolve('tslab/package.json'));
  return [process.execPath, join(tslab, 'bin', 'tslab'), 'kernel', '--config-path={connection_file}'];
}

/**
 * Writes what Jupyter needs to know of the kernel into a folder of the project. Nothing is registered elsewhere: Jupyter
 * finds it by {@link jupyterEnvironment}.
 *
 * @param folder such as `.jupyter` in the project
 */
export function writeKernelFolder(folder: string): void {
  const kernel = join(folder, 'kernels', 'tslab');
  mkdirSync(kernel, { recursive: true });
  const spec = { argv: kernelCommand(), display_name: 'TypeScript', language: 'typescript' };
  writeFileSync(join(kernel, 'kernel.json'), `${JSON.stringify(spec, null, 2)}\n`);
}

/** The environment in which Jupyter finds our kernel and writes into this folder only, not into the user's home. */
export function jupyterEnvironment(
  folder: string,
  environment: NodeJS.ProcessEnv = process.env,
): NodeJS.ProcessEnv {
  const { JUPYTER_PATH: path } = environment;
  return {
    ...environment,
    JUPYTER_PATH: path === undefined || path === '' ? folder : `${folder}${delimiter}${path}`,
    JUPYTER_CONFIG_DIR: join(folder, 'config'),
    JUPYTER_DATA_DIR: join(folder, 'data'),
    JUPYTER_RUNTIME_DIR: join(folder, 'runtime'),
    IPYTHONDIR: join(folder, 'ipython'),
  };
}
