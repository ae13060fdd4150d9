import {
  ESTIMATE_SCHEMA,
  flag,
  group,
  listOf,
  number,
  type Schema,
  text,
  whole,
} from '../experiments/index.js';
import { KINDS } from '../findings/index.js';
import { QUESTIONS } from './answer.js';
import { COUNTED_MODULES } from './countedSchema.js';
import { DETAILS } from './detailsSchemas.js';

const line = group({ value: number, label: text });
const lineOrNull: Schema = { anyOf: [line, { type: 'null' }] };
const kind: Schema = { enum: Object.keys(KINDS) };
const base = { id: text, title: text, caption: text };

const picture: Schema = {
  anyOf: [
    group({
      shape: { const: 'intervals' },
      ...base,
      axis: text,
      kind,
      rows: listOf(group({ label: text, mean: number, low: number, high: number, chosen: flag })),
      lines: listOf(line),
    }),
    group({
      shape: { const: 'ribbon' },
      ...base,
      axis: text,
      kind,
      across: group({ title: text, kind: { enum: ['plain', 'time'] } }),
      rows: listOf(group({ x: number, mean: number, low: number, high: number })),
      lines: listOf(line),
      chosen: lineOrNull,
    }),
    group({
      shape: { const: 'points' },
      ...base,
      axis: text,
      across: text,
      kind,
      rows: listOf(group({ x: number, y: number })),
    }),
    group({
      shape: { const: 'orders' },
      ...base,
      before: listOf(text),
      after: listOf(text),
      moved: listOf(text),
    }),
  ],
};

const common = {
  kind: { const: 'lapwright-answer' },
  format: { const: 1 },
  title: text,
  verdict: text,
  sentence: text,
  because: listOf(text),
  tables: listOf(group({ title: text, head: listOf(text), rows: listOf(listOf(text)) })),
  pictures: listOf(picture),
  sure: listOf(text),
  next: listOf(text),
  scenarios: listOf(
    group(
      {
        name: text,
        file: text,
        sha256: { type: 'string', pattern: '^[0-9a-f]{64}$' },
        changes: listOf(text),
        counted: COUNTED_MODULES,
      },
      ['counted'],
    ),
  ),
  shows: whole,
  seed: whole,
  generator: text,
  version: text,
};

/**
 * The JSON Schema (draft 2020-12) of the answers that questions such as `lapwright compare --json` give: what all have in
 * common, and under `details` the numbers of each question. Names carry their unit as in results of a run.
 *
 * @example
 * answerSchema().title // => 'Lapwright answer'
 */
export function answerSchema(): Schema {
  return {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    title: 'Lapwright answer',
    description: 'The answer to a question about one or more scenarios, with its verdict and its evidence.',
    anyOf: QUESTIONS.map((question) =>
      group({ ...common, question: { const: question }, details: DETAILS[question] }),
    ),
    $defs: {
      estimate: ESTIMATE_SCHEMA,
    },
  };
}
