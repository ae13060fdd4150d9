import { type Document, visit } from 'yaml';

/** A document as JSON where the text that it came from was JSON; undefined where it was not. Comments cannot stand in it. */
export function jsonText(text: string, document: Document.Parsed): string | undefined {
  try {
    JSON.parse(text);
  } catch {
    return undefined;
  }
  visit(document, {
    Scalar(_, scalar) {
      delete scalar.comment;
      if (typeof scalar.value === 'string') scalar.type = 'QUOTE_DOUBLE';
    },
    Collection(_, collection) {
      collection.flow = true;
      delete collection.comment;
    },
  });
  return document.toString({
    lineWidth: 120,
    doubleQuotedMinMultiLineLength: Infinity,
    defaultStringType: 'QUOTE_DOUBLE',
    defaultKeyType: 'QUOTE_DOUBLE',
  });
}
