import { type Document, isAlias, isMap, isScalar, isSeq, type LineCounter, type Node } from 'yaml';
import { Description, type Problem, type ProblemCode } from '../errors/index.js';

/** What a whole file shares: where it came from, and the problems found in it so far. */
export interface FileContext {
  readonly file: string;
  readonly document: Document.Parsed;
  readonly lines: LineCounter;
  readonly problems: Problem[];
  /** What each alias stands for. */
  readonly aliases: ReadonlyMap<Node, Node>;
  /** Places looked at so far. */
  nodes: number;
}

/** Places a file may stand for once its aliases are followed: far above any real scenario, far below an alias bomb. */
const MOST_NODES = 1_000_000;

/** Problems for which a hint is searched. */
const MOST_HINTS = 500;

/** The file stands for more than can be meant. */
export class TooManyNodes extends Error {
  override readonly name = 'TooManyNodes';
}

/** A place in a scenario file with what stands there: a value, and how to say where it is. */
export class Found {
  readonly path: readonly (string | number)[];
  readonly kind: 'map' | 'list' | 'scalar' | 'empty';
  /** The value of a scalar; undefined for maps and lists. */
  readonly scalar: unknown;
  private readonly context: FileContext;
  private readonly node: Node | null;
  private readonly anchor: Node | null;
  /** Name of an alias that refers to nothing. */
  private readonly deadAlias: string | undefined;

  /**
   * @param node what stands there; null when a key has no value
   * @param anchor a node to point at when there is none, such as the key
   */
  constructor(
    context: FileContext,
    path: readonly (string | number)[],
    node: Node | null,
    anchor: Node | null = node,
  ) {
    if (++context.nodes > MOST_NODES)
      throw new TooManyNodes(`the file stands for more than ${MOST_NODES} values`);
    const resolved = isAlias(node) ? (context.aliases.get(node) ?? null) : node;
    this.deadAlias = isAlias(node) && resolved === null ? node.source : undefined;
    this.context = context;
    this.path = path;
    this.node = resolved;
    this.anchor = node ?? anchor;
    this.kind = isMap(resolved)
      ? 'map'
      : isSeq(resolved)
        ? 'list'
        : isScalar(resolved) && resolved.value !== null
          ? 'scalar'
          : 'empty';
    this.scalar = isScalar(resolved) ? resolved.value : undefined;
  }

  /** Keys of a map with what stands behind them, in the order of the file. */
  entries(): { readonly key: string; readonly at: Found; readonly value: Found }[] {
    if (!isMap(this.node)) return [];
    return this.node.items.map((pair) => {
      const keyNode = pair.key as Node | null;
      const key = isScalar(keyNode) ? String(keyNode.value) : '(a key that is no text)';
      const path = [...this.path, key];
      return {
        key,
        at: new Found(this.context, path, keyNode, keyNode),
        value: new Found(this.context, path, pair.value as Node | null, keyNode),
      };
    });
  }

  /** What stands behind a key of a map; undefined when it has no such key. */
  child(key: string): Found | undefined {
    return this.entries().find((entry) => entry.key === key)?.value;
  }

  /** Number of keys of a map or items of a list. */
  get size(): number {
    return isMap(this.node) || isSeq(this.node) ? this.node.items.length : 0;
  }

  /** Items of a list. */
  items(): Found[] {
    if (!isSeq(this.node)) return [];
    return this.node.items.map(
      (item, i) => new Found(this.context, [...this.path, i], item as Node | null, this.anchor),
    );
  }

  /** The path as text: `modules.tipper.stops.jam`, `order[3]`. */
  get pathText(): string {
    return this.path.reduce<string>(
      (text, part) =>
        typeof part === 'number' ? `${text}[${part}]` : text === '' ? part : `${text}.${part}`,
      '',
    );
  }

  /** What stands here, for a message: the value itself, or words for what has no short value. */
  get shown(): unknown {
    if (this.kind === 'map') return new Description('a group of keys');
    if (this.kind === 'list') return new Description('a list');
    if (this.deadAlias !== undefined)
      return new Description(`*${this.deadAlias}, an alias of nothing above it`);
    if (this.kind === 'empty') return new Description('nothing');
    return this.scalar;
  }

  /** Reports that what stands here is wrong. */
  wrong(code: ProblemCode, rule: string, hint?: string): undefined {
    this.context.problems.push({
      code,
      path: this.pathText,
      found: this.shown,
      rule,
      ...(hint !== undefined && { hint }),
      ...this.place,
    });
    return undefined;
  }

  /** Reports something about this place in a sentence of its own. */
  report(code: ProblemCode, statement: string, hint?: string | (() => string)): undefined {
    const { problems } = this.context;
    // A hint that must be searched for is not worth it for the thousandth problem.
    const said = typeof hint === 'function' ? (problems.length < MOST_HINTS ? hint() : undefined) : hint;
    problems.push({
      code,
      path: this.pathText,
      rule: statement,
      ...(said !== undefined && { hint: said }),
      ...this.place,
    });
    return undefined;
  }

  private get place(): Pick<Problem, 'file' | 'line' | 'column'> {
    const offset = (this.anchor ?? this.context.document.contents)?.range?.[0] ?? 0;
    const { line, col } = this.context.lines.linePos(offset);
    return { file: this.context.file, line: Math.max(1, line), column: Math.max(1, col) };
  }
}
