export { findJupyter, type JupyterCommand, type Tries } from './findJupyter.js';
export { INSTALL_LINES, installJupyter } from './installJupyter.js';
export { jupyterEnvironment, kernelCommand, NOTEBOOKS, PROJECT, writeKernelFolder } from './kernelFolder.js';
export { openNotebooks } from './openNotebooks.js';
