import { type Document, isCollection, isMap, isSeq, type Node, parseDocument } from 'yaml';
import { parseScenario } from './parseScenario.js';

/** Figures of one module as keys of a scenario file: plain values, lists and groups of them. */
export interface ModuleFigures {
  readonly module: string;
  readonly builder?: string;
  readonly design?: string;
  readonly figures: Readonly<Record<string, unknown>>;
}

/** Put in where the file says nothing and no log tells: the basket of the type 1 interface standard, and a guess. */
const UNTOLD = {
  basket: { width: '8 studs', depth: '8 studs', height: '10 bricks' },
  travel: '5 s',
} as const;
const GUESS = ' no log tells this: put in what you measure';

/** Of a cause of which no clearing was seen, and the file says nothing. */
const ASSUMED_CLEAR = { clear: { exponential: { mean: '1 min' } } };

/**
 * The text of a scenario with the figures of some modules put in; everything else, comments too, stays as it is but for the
 * way lines are broken. Causes of stopping are put in one by one: what a figure leaves out of one stays. A module that is
 * not there is put on the side table, with a basket and a travel time that somebody still has to measure.
 *
 * @param text of a scenario file that is in order
 * @param file its name, for messages
 * @throws InputError when the file, or what comes out, is not in order
 * @example
 * const text = 'name: bench\nshow: { lasts: 1 h }\nfeed: { steady: 1 bps }\nmodules:\n  lift: { basket: 150, cycle: 0.9 s, travel: 5 s } # old\n';
 * withFigures(text, 'bench.yaml', [{ module: 'lift', figures: { cycle: '1 s' } }]).split('\n')[4] // => '  lift: { basket: 150, cycle: 1 s, travel: 5 s } # old'
 */
export function withFigures(text: string, file: string, modules: readonly ModuleFigures[]): string {
  const { spec, sideTable } = parseScenario(text, file);
  const document = parseDocument(text);
  const spares = spec.spares ?? [];
  const known = new Set([...spec.modules, ...sideTable, ...spares].map(({ id }) => id));
  for (const { module, builder, design, figures } of modules) {
    const place = [spares.some(({ id }) => id === module) ? 'spares' : 'modules', module];
    if (!known.has(module)) {
      const made = document.createNode({
        ...(builder !== undefined && { builder }),
        ...(design !== undefined && { design }),
        ...UNTOLD,
      });
      for (const { key, value } of made.items) {
        if (String(key) in UNTOLD && value) (value as Node).comment = GUESS;
        flat(value);
      }
      document.setIn(place, made);
      // Left out of the order it waits on the side table.
      if (!isSeq(document.get('order')))
        document.set(
          'order',
          spec.modules.map(({ id }) => id),
        );
    } else if (!isMap(document.getIn(place))) {
      // Written as an alias of another: from now on it stands for itself.
      document.setIn(place, document.createNode((document.toJS() as Described)[place[0] ?? '']?.[module]));
    }
    const { stops = {}, ...others } = figures as { readonly stops?: Readonly<Record<string, object>> };
    for (const [key, value] of Object.entries(others)) put(document, [...place, key], value);
    for (const [cause, keys] of Object.entries(stops)) putCause(document, [...place, 'stops', cause], keys);
  }
  const made = document.toString({ lineWidth: 120 });
  parseScenario(made, file);
  return made;
}

type Described = Readonly<Record<string, Readonly<Record<string, unknown>> | undefined>>;

const TRIGGERS = ['per_cycle', 'per_ball', 'running', 'clock', 'at'];

function putCause(document: Document.Parsed, place: readonly string[], keys: object): void {
  const before = document.getIn(place);
  if (!isMap(before)) {
    put(document, place, { ...keys, ...(!('crew' in keys) && { crew: ASSUMED_CLEAR }) });
    return;
  }
  for (const trigger of TRIGGERS) before.delete(trigger);
  if ('crew' in keys) before.delete('itself');
  for (const [key, value] of Object.entries(keys)) {
    const inner = key === 'crew' ? Object.entries(value as object) : [];
    // Notice and walk of the file are not told by a log.
    if (key === 'crew' && isMap(before.get('crew')))
      for (const [part, time] of inner) put(document, [...place, key, part], time);
    else put(document, [...place, key], value);
  }
}

function put(document: Document.Parsed, place: readonly string[], value: unknown): void {
  const node: unknown = document.createNode(value);
  flat(node);
  document.setIn(place, node);
}

/** On one line, between braces. */
function flat(node: unknown): void {
  if (isCollection(node)) node.flow = true;
}
