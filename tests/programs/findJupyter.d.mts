/** Whether a Jupyter is there that a browser can be pointed at. */
export function findJupyterForTests(): boolean;
