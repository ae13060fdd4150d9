import { isMap, isScalar, isSeq, type LineCounter, type Node, Pair, Scalar, YAMLMap, YAMLSeq } from 'yaml';

/** Stands for the place of what stands in no file: it has been put into the document by a change. */
export const MADE = Infinity;

/** Places of a document in which some nodes are made: those are at line `MADE`. */
export function linesWithMade(lines: LineCounter): LineCounter {
  return {
    lineStarts: lines.lineStarts,
    addNewLine: lines.addNewLine,
    linePos: (offset) => (offset === MADE ? { line: MADE, col: MADE } : lines.linePos(offset)),
  };
}

/**
 * A copy of a node that shares nothing with it: no anchors, comments or style.
 *
 * @param target what an alias stands for
 * @param made whether the copy is to stand in no file
 */
export function copyOf(
  node: Node | null,
  target: (alias: Node) => Node | undefined,
  made: boolean,
): Node | null {
  const source = node === null ? null : (target(node) ?? node);
  const range: [number, number, number] | null | undefined = made ? [MADE, MADE, MADE] : source?.range;
  const inner = (value: unknown): Node | null => copyOf(value as Node | null, target, made);
  let copy: Scalar | YAMLMap | YAMLSeq;
  if (isMap(source)) {
    copy = new YAMLMap();
    copy.items = source.items.map(({ key, value }) => new Pair(inner(key), inner(value)));
  } else if (isSeq(source)) {
    copy = new YAMLSeq();
    copy.items = source.items.map(inner);
  } else if (isScalar(source)) {
    copy = new Scalar(source.value);
  } else {
    return null;
  }
  if (range) copy.range = range;
  return copy;
}
