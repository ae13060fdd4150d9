import { type Document, isNode, visit } from 'yaml';

/**
 * Writes out every alias (*name) of a document, so that one place can be changed and no other changes with it.
 *
 * @returns the same document
 */
export function withoutAliases(document: Document.Parsed): Document.Parsed {
  let found = false;
  visit(document, {
    Alias(_, alias) {
      found = true;
      const copy: unknown = alias.resolve(document)?.clone();
      return isNode(copy) ? copy : undefined;
    },
  });
  if (!found) return document;
  visit(document, {
    Node(_, node) {
      delete node.anchor;
    },
  });
  return document;
}
