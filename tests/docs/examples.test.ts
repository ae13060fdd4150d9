import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import * as simCore from '@lapwright/sim-core';
import * as simNotebooks from '@lapwright/sim-notebooks';
import { exampleLoop } from './exampleLoop.js';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));

interface Example {
  readonly name: string;
  readonly file: string;
  readonly code: string;
  readonly expected: string;
}

function sourceFiles(folder: string): string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.ts') && !entry.name.endsWith('.d.ts'))
    .map((entry) => join(entry.parentPath, entry.name));
}

/** The examples of all doc comments of a file, each with the name of what the comment describes. */
function examplesOf(file: string): Example[] {
  const text = readFileSync(file, 'utf8');
  return [
    ...text.matchAll(/\/\*\*((?:(?!\*\/)[\s\S])*?)\*\/\s*export (?:async )?(?:function|class|const) (\w+)/g),
  ].flatMap(([, comment = '', name = '']) =>
    comment
      .split('@example')
      .slice(1)
      .map((part) => {
        const lines = part
          .split('\n')
          .map((line) => line.replace(/^\s*\* ?/, ''))
          .filter((line) => line.trim() !== '')
          .filter((_, i, all) => !all.slice(0, i + 1).some((earlier) => earlier.startsWith('@')));
        const [code = '', expected = ''] = lines.join('\n').split('// =>');
        return { name, file: relative(ROOT, file), code: code.trim(), expected: expected.trim() };
      }),
  );
}

const files = ['packages/sim-core/src', 'packages/sim-notebooks/src'].flatMap((folder) =>
  sourceFiles(join(ROOT, folder)),
);
const examples = files.flatMap(examplesOf);

/** Evaluates JavaScript in which the last statement is an expression, with these names in scope. */
async function evaluate(code: string, scope: Readonly<Record<string, unknown>>): Promise<unknown> {
  const lines = code.split('\n');
  const last = lines.findLastIndex((line) => /^\S/.test(line) && !/^[)\]}]/.test(line));
  const body = [
    ...lines.slice(0, last),
    `return (${lines.slice(last).join('\n').replace(/;\s*$/, '')});`,
  ].join('\n');
  // oxlint-disable-next-line no-implied-eval -- running the examples of the documentation is what this test is for
  const run = new Function(...Object.keys(scope), `return (async () => {\n${body}\n})();`) as (
    ...values: unknown[]
  ) => Promise<unknown>;
  return run(...Object.values(scope));
}

const exampleScenario: simCore.Scenario = {
  name: 'Example',
  spec: exampleLoop,
  sideTable: [],
  source: { file: 'example.yaml', sha256: '0'.repeat(64) },
};
const { summary } = await simCore.replicate(exampleLoop, { seed: 1, replications: 2 });
const exampleAnswer = simCore.toAnswer(
  {
    question: 'compare',
    title: 'a against b',
    verdict: 'undecided',
    sentence: 'Undecided.',
    because: [],
    pictures: [],
    tables: [],
    sure: [],
    next: [],
    details: {},
  },
  { seed: 1, scenarios: [], shows: 0 },
);
const exampleResult = simCore.toRunResult(exampleScenario, summary, { seed: 1, asked: 2 });

// What the verbs of notebooks show goes nowhere here.
const nowhere = { raw: () => undefined };
simNotebooks.connect({ display: nowhere, newDisplay: () => nowhere });

describe('examples in doc comments', () => {
  it.each(examples)('$file: $name', async ({ file, code, expected }) => {
    const built = file.replace('/src/', '/dist/').replace(/\.ts$/, '.js');
    const own = (await import(join(ROOT, built))) as Record<string, unknown>;
    // Public names from the built packages, as users get them, those of the file's own package before those of the other,
    // which has verbs of the same names; the rest from the file itself.
    const packages = file.includes('sim-core') ? [simNotebooks, simCore] : [simCore, simNotebooks];
    const scope = {
      ...own,
      ...packages[0],
      ...packages[1],
      exampleLoop,
      exampleScenario,
      exampleResult,
      exampleAnswer,
    };
    expect(expected, 'every example states its result after // =>').not.toBe('');
    expect(await evaluate(code, scope)).toEqual(await evaluate(expected, scope));
  });

  it('stand beside every public function and class', () => {
    const described = new Set(examples.map(({ name }) => name));
    const isCallable = ([, value]: [string, unknown]): boolean => typeof value === 'function';
    const missing = [...Object.entries(simCore), ...Object.entries(simNotebooks)]
      .filter(isCallable)
      .map(([name]) => name)
      .filter((name) => !described.has(name));
    expect(missing).toEqual([]);
  });
});
