import { type Document, isPair, isScalar, isSeq, type Node, visit } from 'yaml';

/** What each alias of a document stands for: the nearest node above it with that anchor. In one pass over the document. */
export function aliasTargets(document: Document.Parsed): ReadonlyMap<Node, Node> {
  const anchored = new Map<string, Node>();
  const targets = new Map<Node, Node>();
  visit(document, {
    Alias: (_, alias) => {
      const target = anchored.get(alias.source);
      if (target) targets.set(alias, target);
    },
    Node: (_, node) => {
      if ('anchor' in node && node.anchor !== undefined) anchored.set(node.anchor, node);
    },
  });
  return targets;
}

/** A key that its map holds already, with the path to it. */
export interface RepeatedKey {
  readonly node: Node;
  readonly path: readonly (string | number)[];
}

/** All keys that stand twice in their map. Keys are names: 1 and "1" are the same. */
export function repeatedKeys(document: Document.Parsed): RepeatedKey[] {
  const repeated: RepeatedKey[] = [];
  visit(document, {
    Map: (_, map, ancestors) => {
      const seen = new Set<string>();
      for (const { key } of map.items) {
        if (!isScalar(key)) continue;
        const name = String(key.value);
        if (seen.has(name))
          repeated.push({ node: key as Node, path: [...pathOf([...ancestors, map]), name] });
        seen.add(name);
      }
    },
  });
  return repeated;
}

function pathOf(ancestors: readonly unknown[]): (string | number)[] {
  return ancestors.flatMap((ancestor, i): (string | number)[] => {
    if (isPair(ancestor) && isScalar(ancestor.key)) return [String(ancestor.key.value)];
    return isSeq(ancestor) ? [ancestor.items.indexOf(ancestors[i + 1])] : [];
  });
}
