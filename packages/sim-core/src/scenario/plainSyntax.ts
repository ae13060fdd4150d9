import type { ErrorCode } from 'yaml';

/** What the parser of YAML found wrong, in words for people who have not read its standard. */
export function plainSyntax(code: ErrorCode, message: string): string {
  const [first = ''] = message.split('\n');
  return (
    PLAIN[code] ??
    `this is not YAML: ${first.charAt(0).toLowerCase()}${first.slice(1).replace(/[.:]\s*$/, '')}`
  );
}

const PLAIN: { readonly [code in ErrorCode]?: string } = {
  TAB_AS_INDENT: 'a tab is used to indent; use spaces',
  BAD_INDENT: 'this line is not indented like the lines it belongs to, or a bracket above it does not match',
  DUPLICATE_KEY: 'the same key stands here twice; every name may be used once',
  MISSING_CHAR: 'a closing quote, bracket or colon is missing here or shortly before',
  MULTILINE_IMPLICIT_KEY: 'a colon is missing after a key, or a quote is not closed',
  BLOCK_AS_IMPLICIT_KEY: 'two keys stand on one line; put the second on a line of its own',
  UNEXPECTED_TOKEN:
    'something stands here that does not belong: a stray bracket, quote or comma, or text after a value',
  BAD_SCALAR_START: 'a text that begins with this character must be put in quotes',
  BAD_ALIAS: 'this alias (*name) refers to nothing above it',
  TAG_RESOLVE_FAILED: 'tags (!name) are not used in scenarios',
  RESOURCE_EXHAUSTION: 'this is nested too deeply to be a scenario',
};
