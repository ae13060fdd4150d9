import { type Document, isCollection, isMap, isScalar, isSeq, type Node, parseDocument } from 'yaml';
import { jsonText } from './jsonText.js';
import { parseScenario } from './parseScenario.js';
import { withoutAliases } from './withoutAliases.js';

/** Figures of one module as keys of a scenario file: plain values, lists and groups of them. */
export interface ModuleFigures {
  readonly module: string;
  readonly builder?: string;
  readonly design?: string;
  readonly figures: Readonly<Record<string, unknown>>;
  /** Causes of which all stays as it is, each with what is to be written beside it. @default none */
  readonly stays?: Readonly<Record<string, string>>;
}

/** Put in where the file says nothing and no log tells: the basket of the type 1 interface standard, and a guess. */
const UNTOLD = {
  basket: { width: '8 studs', depth: '8 studs', height: '10 bricks' },
  travel: '5 s',
  cycle: '1 s',
} as const;
const GUESS = ' no log tells this: put in what you measure';

/** Of a cause of which no clearing was seen, and the file says nothing. */
const ASSUMED_CLEAR = { clear: { exponential: { mean: '1 min' } } };
/** Until a minder is there, where neither the cause nor the crew section says it. */
const ASSUMED_REACH = '10 s';

/**
 * The text of a scenario with the figures of some modules put in; everything else, comments too, stays as it is but for the
 * way lines are broken, and aliases (*name), which are written out. Causes of stopping are put in one by one: what a figure
 * leaves out of one stays. A module that is not there is put on the side table, with a basket and a travel time that
 * somebody still has to measure (and a cycle, where none was timed). A file in JSON stays one.
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
  const document = withoutAliases(parseDocument(text));
  const spares = spec.spares ?? [];
  const known = new Set([...spec.modules, ...sideTable, ...spares].map(({ id }) => id));
  for (const { module, builder, design, figures, stays = {} } of modules) {
    const section = spares.some(({ id }) => id === module) ? 'spares' : 'modules';
    const place = [section, keyOf(document.get(section), module)];
    const { stops = {}, ...others } = figures as { readonly stops?: Readonly<Record<string, object>> };
    if (!known.has(module)) {
      const made = document.createNode({
        ...(builder !== undefined && { builder }),
        ...(design !== undefined && { design }),
        ...UNTOLD,
        ...others,
      });
      for (const { key, value } of made.items) {
        if (String(key) in UNTOLD && !(String(key) in others)) guessed(value);
        flat(value);
      }
      document.setIn(place, made);
      // Left out of the order it waits on the side table.
      if (!isSeq(document.get('order')))
        document.set(
          'order',
          spec.modules.map(({ id }) => id),
        );
    } else if (Object.keys(stops).length > 0) ownStops(document, place);
    const counts = document.getIn([...place, 'counted', 'stops']);
    for (const [key, value] of Object.entries(others)) put(document, [...place, key], value);
    for (const [cause, remark] of Object.entries(stays)) {
      const key = keyOf(document.getIn([...place, 'stops']), cause);
      beside(document, [...place, 'stops', key], `${cause}: ${remark}`);
      // What stood behind the figure stands behind it still.
      const before = isMap(counts) ? counts.get(keyOf(counts, cause), true) : undefined;
      if (before !== undefined && 'counted' in others)
        document.setIn([...place, 'counted', 'stops', key], before);
    }
    for (const [cause, keys] of Object.entries(stops)) {
      const key = keyOf(document.getIn([...place, 'stops']), cause);
      putCause(document, [...place, 'stops', key], keys);
    }
  }
  const made = jsonText(text, document) ?? document.toString({ lineWidth: 120 });
  parseScenario(made, file);
  return made;
}

const TRIGGERS = ['per_cycle', 'per_ball', 'running', 'clock', 'at'];

/** Keys of a place: text, or what a parser makes of a name that looks like a number. */
type Place = readonly unknown[];

function putCause(document: Document.Parsed, place: Place, keys: object): void {
  const before = document.getIn(place);
  if (isMap(before)) {
    for (const trigger of TRIGGERS) before.delete(trigger);
    if ('crew' in keys) before.delete('itself');
    for (const [key, value] of Object.entries(keys)) {
      const inner = key === 'crew' ? Object.entries(value as object) : [];
      // Notice and walk of the file are not told by a log.
      if (key === 'crew' && isMap(before.get('crew')))
        for (const [part, time] of inner) put(document, [...place, key, part], time);
      else put(document, [...place, key], value);
    }
  } else {
    put(document, place, { ...keys, ...(!('crew' in keys) && { crew: ASSUMED_CLEAR }) });
    if (!('crew' in keys)) guessed(document.getIn([...place, 'crew', 'clear'], true));
  }
  reachable(document, [...place, 'crew']);
}

/** A stop that needs a minder needs one who comes: what the file says nothing of is guessed, and marked. */
function reachable(document: Document.Parsed, crew: Place): void {
  if (!document.hasIn(crew)) return;
  if (!document.has('crew')) {
    document.set('crew', document.createNode({ minders: 1 }));
    guessed(document.getIn(['crew', 'minders'], true));
  }
  for (const part of ['notice', 'walk']) {
    if (document.hasIn(['crew', part]) || document.hasIn([...crew, part])) continue;
    put(document, [...crew, part], ASSUMED_REACH);
    guessed(document.getIn([...crew, part], true));
  }
}

/** Stops of its own hide all those of its template, so it takes them over first. */
function ownStops(document: Document.Parsed, place: Place): void {
  const template = document.getIn([...place, 'like']);
  if ((typeof template !== 'string' && typeof template !== 'number') || document.hasIn([...place, 'stops']))
    return;
  const shared = document.getIn(['templates', keyOf(document.get('templates'), String(template)), 'stops']);
  if (isMap(shared)) document.setIn(place.concat('stops'), shared.clone());
}

/** The key under which a name stands in a map: 7 and "7" are the same name. */
function keyOf(map: unknown, name: string): unknown {
  const keys = isMap(map) ? map.items.map(({ key }) => key) : [];
  return keys.find((key) => isScalar(key) && (key.source ?? String(key.value)) === name) ?? name;
}

function put(document: Document.Parsed, place: Place, value: unknown): void {
  const node: unknown = document.createNode(value);
  flat(node);
  document.setIn(place, node);
}

/** A remark at the end of the lines of a cause, where the file has it in this place. */
function beside(document: Document.Parsed, place: Place, remark: string): void {
  const nodes = place.map((_, i) => document.getIn(place.slice(0, i + 1), true));
  const cause = nodes.at(-1);
  // Within braces a remark would break the line: it stands behind them.
  const braces = nodes.find((node) => isCollection(node) && node.flow === true);
  const trigger = isMap(cause) ? TRIGGERS.find((kind) => cause.has(kind)) : undefined;
  const node = braces ?? (isMap(cause) && trigger !== undefined ? cause.get(trigger, true) : undefined);
  if (node === null || typeof node !== 'object') return;
  const { comment } = node as Node;
  (node as Node).comment =
    ` ${[...(comment === null || comment === undefined ? [] : [comment.trim()]), remark].join('; ')}`;
}

function guessed(node: unknown): void {
  if (node !== null && typeof node === 'object') (node as Node).comment = GUESS;
}

/** On one line, between braces. */
function flat(node: unknown): void {
  if (isCollection(node)) node.flow = true;
}
