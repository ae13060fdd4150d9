import { createHash } from 'node:crypto';
import { type Document, LineCounter, parseAllDocuments, visit } from 'yaml';
import { aliasTargets, repeatedKeys } from './documentChecks.js';
import { describeProblem, InputError, type Problem } from '../errors/index.js';
import { toSpec } from './assemble/toSpec.js';
import { scenarioForm } from './form/scenarioForm.js';
import { type FileContext, Found, TooManyNodes } from './found.js';
import { plainSyntax } from './plainSyntax.js';
import type { Scenario } from './scenario.js';

/** Problems told at once; a file with more is wrong in a way that the first ones explain. */
const MOST_PROBLEMS = 100;

/**
 * Reads a scenario from the text of a YAML or JSON file.
 *
 * @param text the file's content
 * @param file its name, for messages and provenance
 * @throws InputError with every problem found: file, line, column, path, what was found, what is allowed
 * @example
 * parseScenario('{ name: bench, show: { lasts: 1 h }, feed: { steady: 1 bps }, modules: { lift: { basket: 150, cycle: 0.9 s, travel: 5 s } } }').spec.modules.length // => 1
 */
export function parseScenario(text: string, file = 'scenario'): Scenario {
  return scenarioOf(text, file, createHash('sha256').update(text).digest('hex'));
}

/** The same with a hash of the bytes that the text was decoded from. */
export function scenarioOf(text: string, file: string, sha256: string): Scenario {
  const problems: Problem[] = [];
  const read = readDocument(text, file, problems);
  if (problems.length > 0) throw new InputError(inOrder(problems));
  if (read === undefined) throw new Error(`${file}: nothing was read, and no problem was reported`);
  return { ...read, source: { file, sha256 } };
}

function readDocument(text: string, file: string, problems: Problem[]): Omit<Scenario, 'source'> | undefined {
  const lines = new LineCounter();
  const whole = (rule: string, hint?: string): undefined => {
    problems.push({
      code: 'syntax',
      path: '',
      rule,
      file,
      line: 1,
      column: 1,
      ...(hint !== undefined && { hint }),
    });
    return undefined;
  };
  const documents = parse(text, lines);
  if (documents === undefined) return whole('this is nested too deeply to be a scenario');
  const [document, second] = documents;
  if (document === undefined) return whole('the file is empty', 'A scenario begins with name: and show:.');
  for (const { code, message, pos } of documents.flatMap(({ errors, warnings }) => [
    ...errors,
    ...warnings,
  ])) {
    const { line, col } = lines.linePos(openQuote(document, code, pos[0]) ?? pos[0]);
    problems.push({
      code: 'syntax',
      path: '',
      rule: plainSyntax(code, message),
      file,
      line: Math.max(1, line),
      column: Math.max(1, col),
    });
  }
  if (problems.length > 0) return undefined;
  if (second !== undefined)
    return whole(
      'there is more than one document in the file',
      'Write one scenario in one file: take out the line ---.',
    );
  const { explicit = false, version } = document.directives.yaml;
  if (explicit && version !== '1.2') {
    return whole(
      `the file says it is YAML ${version}, in which 10:00 is a number`,
      'Take out the line %YAML.',
    );
  }
  const context: FileContext = { file, document, lines, problems, nodes: 0, aliases: aliasTargets(document) };
  for (const { node, path } of repeatedKeys(document)) {
    new Found(context, path, node).report(
      'duplicate',
      'the same key stands here twice; every name may be used once',
    );
  }
  try {
    const root = new Found(context, [], document.contents);
    if (root.kind === 'empty') return whole('the file is empty', 'A scenario begins with name: and show:.');
    if (String(root.entries().find(({ key }) => key === 'kind')?.value.scalar).startsWith('lapwright-'))
      return whole('this is a result, not a scenario', 'Name the scenario file it was made from.');
    const read = scenarioForm.read(root);
    return read && toSpec(read);
  } catch (error) {
    if (error instanceof TooManyNodes)
      return whole(error.message, 'Use templates instead of aliases (*name).');
    throw error;
  }
}

function parse(text: string, lines: LineCounter): Document.Parsed[] | undefined {
  try {
    const parsed = parseAllDocuments(text, {
      lineCounter: lines,
      prettyErrors: false,
      logLevel: 'silent',
      // The parser would compare each key with each other; repeatedKeys does it in one pass.
      uniqueKeys: false,
    });
    return 'empty' in parsed ? [] : parsed;
  } catch (error) {
    // The parser recurses: a hundred thousand brackets end its stack.
    if (error instanceof RangeError) return undefined;
    throw error;
  }
}

/** Where a quote was opened that is not closed: the parser reports the end of the file, which helps nobody. */
function openQuote(document: Document.Parsed, code: string, offset: number): number | undefined {
  let start: number | undefined;
  if (code !== 'MISSING_CHAR') return undefined;
  visit(document, {
    Scalar: (_, { type, range }) => {
      if (type?.startsWith('QUOTE_') && range && range[0] < offset && range[1] >= offset) start = range[0];
    },
  });
  return start;
}

/** In the order of the file, each once: modules share templates. The first hundred, and a word on the rest. */
function inOrder(problems: readonly Problem[]): Problem[] {
  const different = new Map(problems.map((problem) => [describeProblem(problem), problem]));
  const sorted = [...different.values()].toSorted(
    (a, b) => (a.line ?? 0) - (b.line ?? 0) || (a.column ?? 0) - (b.column ?? 0),
  );
  const more = sorted.length - MOST_PROBLEMS;
  if (more <= 0) return sorted;
  return [...sorted.slice(0, MOST_PROBLEMS), { code: 'syntax', path: '', rule: `and ${more} more problems` }];
}
