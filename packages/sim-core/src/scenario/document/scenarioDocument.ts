import {
  Document,
  isMap,
  isScalar,
  isSeq,
  LineCounter,
  type Node,
  Pair,
  parseDocument,
  Scalar,
  YAMLMap,
  YAMLSeq,
} from 'yaml';
import type { Problem } from '../../errors/index.js';
import { toSpec } from '../assemble/toSpec.js';
import { aliasTargets } from '../documentChecks.js';
import { scenarioForm } from '../form/scenarioForm.js';
import { Found, TooManyNodes } from '../found.js';
import { scenarioOf } from '../parseScenario.js';
import type { Scenario } from '../scenario.js';
import { copyOf, linesWithMade, MADE } from './made.js';
import type { DocumentPath } from './pathText.js';

/** What a document reads as: a scenario, or the problems that stand in the way. */
export interface DocumentRead {
  readonly scenario?: Omit<Scenario, 'source'>;
  /** Those about a value that a change has put in have no file, line or column. */
  readonly problems: readonly Problem[];
}

/**
 * A scenario file that can be changed key by key and read again by the rules of every file. What has not been changed
 * keeps its line, so that problems can point at it.
 */
export class ScenarioDocument {
  /** The scenario as it was before any change. */
  readonly original: Scenario;
  private readonly document: Document.Parsed;
  private readonly lines: LineCounter;
  private root: Node | null;

  /**
   * @param file its name, for messages
   * @param sha256 of the bytes of the file
   * @throws InputError when the file has problems before anything is changed
   */
  constructor(text: string, file: string, sha256: string) {
    this.original = scenarioOf(text, file, sha256);
    const lines = new LineCounter();
    this.document = parseDocument(text, { lineCounter: lines, logLevel: 'silent', uniqueKeys: false });
    this.lines = linesWithMade(lines);
    const aliases = aliasTargets(this.document);
    this.root = copyOf(this.document.contents, (alias) => aliases.get(alias), false);
  }

  /** What stands there; undefined when nothing does, not even an empty key. */
  kind(path: DocumentPath): 'map' | 'list' | 'scalar' | undefined {
    const node = this.at(path);
    if (node === undefined) return undefined;
    return isMap(node) ? 'map' : isSeq(node) ? 'list' : 'scalar';
  }

  /** The keys of the map that stands there, or none. */
  keys(path: DocumentPath): string[] {
    const node = this.at(path);
    return isMap(node) ? node.items.map(({ key }) => nameOf(key)) : [];
  }

  /** Items of the list that stands there, as names; none when there is no list. */
  names(path: DocumentPath): string[] {
    const node = this.at(path);
    return isSeq(node) ? node.items.map(nameOf) : [];
  }

  /** The value of a scalar; undefined for everything else, and for null. */
  scalar(path: DocumentPath): string | number | boolean | undefined {
    const node = this.at(path);
    const value = isScalar(node) ? node.value : undefined;
    return typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean'
      ? value
      : undefined;
  }

  /** What stands there on one line, as it could be written in a file; undefined when nothing does. */
  text(path: DocumentPath): string | undefined {
    const node = this.at(path);
    if (node === undefined) return undefined;
    const options = { collectionStyle: 'flow', lineWidth: 0 } as const;
    return new Document(node && copyOf(node, () => undefined, true))
      .toString(options)
      .trim()
      .replaceAll(/\s*\n\s*/g, ' ');
  }

  /** Puts a value there; the map or list around it must be there. */
  put(path: DocumentPath, node: Node | null): void {
    const parent = this.at(path.slice(0, -1));
    const last = path.at(-1);
    if (isSeq(parent) && typeof last === 'number') {
      parent.items[last] = node;
    } else if (isMap(parent) && typeof last === 'string') {
      const pair = parent.items.find(({ key }) => nameOf(key) === last);
      if (pair) pair.value = node;
      else parent.items.push(new Pair(made(new Scalar(last)), node));
    } else {
      throw new TypeError(`nothing can be put at ${path.join('.')}`);
    }
  }

  /** Puts a number, a text, or a list of texts there. */
  putPlain(path: DocumentPath, value: number | string | readonly string[]): void {
    if (typeof value !== 'object') return this.put(path, made(new Scalar(value)));
    const list = made(new YAMLSeq());
    list.items = value.map((item) => made(new Scalar(item)));
    return this.put(path, list);
  }

  /** Puts an empty map there. */
  putMap(path: DocumentPath): void {
    this.put(path, made(new YAMLMap()));
  }

  /** Puts a copy of what stands at `from` at `to`. */
  copy(from: DocumentPath, to: DocumentPath): void {
    this.put(
      to,
      copyOf(this.at(from) ?? null, () => undefined, false),
    );
  }

  /** Takes a key out of its map, if it is there. */
  remove(path: DocumentPath): void {
    const parent = this.at(path.slice(0, -1));
    if (isMap(parent)) parent.items = parent.items.filter(({ key }) => nameOf(key) !== path.at(-1));
  }

  /** Reads the document as it stands. */
  read(): DocumentRead {
    const problems: Problem[] = [];
    const { file } = this.original.source;
    const context = { file, document: this.document, lines: this.lines, problems, nodes: 0, aliases: NONE };
    try {
      const read = scenarioForm.read(new Found(context, [], this.root));
      const scenario = read && toSpec(read);
      return problems.length === 0 && scenario
        ? { scenario, problems: [] }
        : { problems: problems.map(withoutMadePlace) };
    } catch (error) {
      if (!(error instanceof TooManyNodes)) throw error;
      return { problems: [{ code: 'syntax', path: '', rule: error.message }] };
    }
  }

  private at(path: DocumentPath): Node | null | undefined {
    let node: Node | null | undefined = this.root;
    for (const part of path) {
      if (isMap(node) && typeof part === 'string') {
        const pair: Pair | undefined = node.items.find(({ key }) => nameOf(key) === part);
        node = pair && (pair.value as Node | null);
      } else {
        node = isSeq(node) && typeof part === 'number' ? (node.items[part] as Node | undefined) : undefined;
      }
    }
    return node;
  }
}

const NONE: ReadonlyMap<Node, Node> = new Map();

function made<N extends Scalar | YAMLMap | YAMLSeq>(node: N): N {
  node.range = [MADE, MADE, MADE];
  return node;
}

function nameOf(node: unknown): string {
  return isScalar(node) ? String(node.value) : '';
}

function withoutMadePlace(problem: Problem): Problem {
  if (problem.line !== MADE) return problem;
  const { file: _file, line: _line, column: _column, ...rest } = problem;
  return rest;
}
