import { type Document, isAlias, type Node, parseAllDocuments, visit } from 'yaml';
import { pathText } from './pathText.js';
import { repeatedKeys } from '../documentChecks.js';
import { plainSyntax } from '../plainSyntax.js';
import { copyOf } from './made.js';

/** A value that can be put into a scenario document, or what is wrong with its text. */
export type ParsedValue =
  | { readonly ok: true; readonly node: Node | null }
  | { readonly ok: false; readonly rule: string; readonly hint: string };

/**
 * Reads the text of one value, in YAML: `150`, `3.6 s`, `[a, b]`, `{ lognormal: { mean: 3 s, cv: 0.1 } }`.
 *
 * @example
 * parseValue('{ mean: 3 s').ok // => false
 */
export function parseValue(text: string): ParsedValue {
  const wrong = (rule: string, hint = 'Such as { lognormal: { mean: 3 s, cv: 0.1 } }.'): ParsedValue => ({
    ok: false,
    rule,
    hint,
  });
  let documents: Document.Parsed[];
  try {
    const parsed = parseAllDocuments(text, { prettyErrors: false, logLevel: 'silent', uniqueKeys: false });
    documents = 'empty' in parsed ? [] : parsed;
  } catch (error) {
    if (error instanceof RangeError) return wrong('the value is nested too deeply');
    throw error;
  }
  if (documents.length === 0)
    return wrong('the value is missing', 'Write it behind the sign =, as in charge=600.');
  const [document, second] = documents;
  if (document === undefined || second !== undefined)
    return wrong('this is more than one value', 'Take out the line ---.');
  const [fault] = [...document.errors, ...document.warnings];
  if (fault) {
    const open = fault.code === 'MISSING_CHAR' || (fault.code === 'BAD_INDENT' && !text.includes('\n'));
    return open
      ? wrong('a closing quote, bracket or brace is missing')
      : wrong(plainSyntax(fault.code, fault.message), 'A text with signs in it is put in quotes.');
  }
  let aliased = false;
  visit(document, { Node: (_, node) => void (aliased ||= isAlias(node)) });
  if (aliased)
    return wrong(
      'an alias (*name) cannot be used in a change',
      'Write the value itself, or put it in quotes.',
    );
  const [repeated] = repeatedKeys(document);
  if (repeated)
    return wrong(
      `the key ${pathText(repeated.path)} stands twice in the value`,
      'Every name may be used once.',
    );
  return { ok: true, node: copyOf(document.contents, () => undefined, true) };
}
