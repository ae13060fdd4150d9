import { HEAD_KEYS } from './logHead.js';
import { LOG_COLUMNS } from './logColumns.js';
import { LOG_WORDS, type LogWord } from './logWords.js';

/** A log to begin with: what stands at its head, the columns, and rows to be written over. */
export interface LogTemplate {
  readonly kind: 'bench' | 'show';
  /** Key and an invented value. */
  readonly head: readonly (readonly [string, string])[];
  readonly columns: readonly string[];
  /** Words that are of use in it, with what they mean. */
  readonly words: readonly { readonly word: LogWord; readonly doc: string }[];
  /** Rows as an example. */
  readonly rows: readonly (readonly string[])[];
}

const BENCH_WORDS: readonly LogWord[] = [
  'start',
  'batch',
  'stop',
  'cleared',
  'break',
  'resume',
  'spill',
  'end',
];

const BENCH: LogTemplate = {
  kind: 'bench',
  head: [
    ['log', 'bench'],
    ['module', 'lantern-stairs'],
    ['builder', 'Perrin'],
    ['design', 'step-lift'],
    ['batch', '3'],
    ['basket', '164'],
  ],
  columns: ['time', 'what', 'cause', 'count', 'level', 'note'],
  words: wordsOf(BENCH_WORDS),
  rows: [
    ['0:00:00', 'start', '', '', '', 'basket half full, motor cold'],
    ['0:00:02.7', 'batch', '', '3', '80', ''],
    ['0:00:05.4', 'batch', '', '2', '81', 'one missed'],
    ['0:06:10', 'stop', 'step-jam', '1', '80', '1 ball fell out of it'],
    ['0:06:52', 'cleared', '', '', '', ''],
    ['0:30:00', 'break', '', '', '', 'tea'],
    ['0:41:00', 'resume', '', '', '', ''],
    ['1:11:00', 'end', '', '', '', ''],
  ],
};

const SHOW: LogTemplate = {
  kind: 'show',
  head: [
    ['log', 'show'],
    ['day', '1'],
    ['modules', 'old-mill, crooked-stair, ferris-jug'],
  ],
  columns: ['time', 'module', 'what', 'cause', 'count', 'lasted', 'note'],
  words: wordsOf(LOG_WORDS.map(({ word }) => word).filter((word) => word !== 'batch')),
  rows: [
    ['10:00', '', 'start', '', '', '', ''],
    ['10:00', '', 'shift', '', '2', '', 'Ida and Tom'],
    ['10:00', '', 'counter', '', '0', '', ''],
    ['10:12', 'crooked-stair', 'stop', 'jam', '', '', ''],
    ['10:13:30', 'crooked-stair', 'cleared', '', '', '', ''],
    ['10:20', 'old-mill', 'stop', 'jam', '', '40', 'took 40 seconds'],
    ['10:31', 'crooked-stair', 'spill', '', '12', '', ''],
    ['10:40', '', 'lap', 'red', '', '4:10', 'the red ball'],
    ['11:00', '', 'counter', '', '3480', '', ''],
    ['11:05', 'ferris-jug', 'pulled', '', '', '', ''],
    ['11:40', 'ferris-jug', 'back', '', '', '', ''],
    ['13:00', '', 'break', '', '', '', ''],
    ['13:30', '', 'resume', '', '', '', ''],
    ['17:00', '', 'end', '', '', '', ''],
  ],
};

/**
 * A template of the log of a bench or of a show.
 *
 * @example
 * logTemplate('bench').columns // => ['time', 'what', 'cause', 'count', 'level', 'note']
 */
export function logTemplate(kind: 'bench' | 'show'): LogTemplate {
  return kind === 'bench' ? BENCH : SHOW;
}

/**
 * A template as CSV text with its explanation in comment lines; it can be read as it is.
 *
 * @example
 * templateCsv(logTemplate('bench')).split('\r\n').slice(0, 3) // => ['# log: bench', '# module: lantern-stairs', '# builder: Perrin']
 */
export function templateCsv({ head, columns, words, rows }: LogTemplate): string {
  const docs = LOG_COLUMNS.filter(({ name }) => columns.includes(name));
  const lines = [
    ...head.map(([key, value]) => `# ${key}: ${value}`),
    '#',
    '# At the head, before the names of the columns, may stand lines like those above:',
    ...HEAD_KEYS.map(({ key, doc }) => `#   ${key} - ${doc}`),
    '# The columns. Other lines that begin with # are not read.',
    ...docs.map(({ name, doc }) => `#   ${name} - ${doc}`),
    '# The words of the column what:',
    ...words.map(({ word, doc }) => `#   ${word} - ${doc}`),
    '# These rows are an example: write over them.',
    columns.join(','),
    ...rows.map((row) =>
      row.map((cell) => (/[",]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell)).join(','),
    ),
  ];
  return `${lines.join('\r\n')}\r\n`;
}

function wordsOf(words: readonly LogWord[]): LogTemplate['words'] {
  return LOG_WORDS.filter(({ word }) => words.includes(word));
}
