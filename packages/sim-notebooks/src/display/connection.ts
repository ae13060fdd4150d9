/** One output of a cell, as tslab hands it out. */
export interface CellDisplay {
  raw(contentType: string, content: string | Uint8Array): unknown;
}

/** What this package needs of tslab. */
export interface Tslab {
  readonly display: CellDisplay;
  newDisplay(): CellDisplay;
}

/** The same content in several forms, by media type; who shows it takes the richest it can. */
export type MediaBundle = Readonly<Record<string, unknown>>;

let connection: Tslab | undefined;

/**
 * Lets the verbs show pictures and tables below the cell. The first cell of a notebook does this once; without it they
 * print plain text.
 *
 * @param tslab all of the module, as `import * as tslab from 'tslab'` gives it
 * @example
 * connect({ display: { raw: () => undefined }, newDisplay: () => ({ raw: () => undefined }) }) // => undefined
 */
export function connect(tslab: Tslab): void {
  connection = tslab;
}

/** Whether there is a notebook: `connect` was called. */
export function inNotebook(): boolean {
  return connection !== undefined;
}

/** Shows one content below the cell, or prints its plain text where there is no notebook. */
export function output(bundle: MediaBundle): void {
  if (connection !== undefined) send(connection.display, bundle);
  else process.stdout.write(`${String(bundle['text/plain'])}\n`);
}

/** An output that each call writes anew in the same place; undefined where there is no notebook. */
export function lastingOutput(): ((bundle: MediaBundle) => void) | undefined {
  const display = connection?.newDisplay();
  return display && ((bundle) => send(display, bundle));
}

/**
 * What tells one execution of a cell from another: tslab gives each a way of its own to write text. Undefined where there
 * is no notebook.
 */
export function currentCell(): unknown {
  return connection && (Reflect.get(process.stdout, 'write') as unknown);
}

/**
 * Displays have no way to send several forms at once. What they are given is put behind the name of the media type and
 * written as JSON: under the name `toJSON` a function stands for all of it. Tested with the version of tslab that this
 * package asks for.
 */
function send(display: CellDisplay, bundle: MediaBundle): void {
  display.raw('toJSON', (() => bundle) as unknown as string);
}
