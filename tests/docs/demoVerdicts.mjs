/*
 * Asks every question of the demo with its default options and writes the sentences into the README, with the time each
 * took on this machine printed beside: npm run verdicts.
 */
import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';

const DEMO = 'scenarios/demo.yaml';

const QUESTIONS = [
  { question: 'How many shows are enough?', args: ['enough', DEMO] },
  { question: 'Is a change worth it?', args: ['compare', DEMO, '--set', 'charge=600'] },
  { question: 'Can this module go inline?', args: ['inline', DEMO, 'nine-lives'] },
  {
    question: 'Which of several is best?',
    args: [
      'best-of',
      DEMO,
      '--variant',
      'fewer balls: --set charge=600',
      '--variant',
      'two minders: --set crew.minders=2',
    ],
  },
  { question: 'Which order is better?', args: ['best-order', DEMO] },
  { question: 'How many balls?', args: ['how-many', DEMO, 'balls'] },
  { question: 'How many minders?', args: ['how-many', DEMO, 'minders'] },
  { question: 'Which spares?', args: ['spares', DEMO] },
  { question: 'What to mend first?', args: ['mend-first', DEMO] },
  { question: 'What if it stops now?', args: ['when-stops', DEMO, 'drunken-stairs', '--for', '5min'] },
  { question: 'How rarely does a basket run over?', args: ['how-rare', DEMO, 'copper-snail'] },
  { question: 'How soon does each basket flood?', args: ['flood-card', DEMO] },
  { question: 'Does the file match what was logged?', args: ['match', DEMO, 'scenarios/demo-weekend.csv'] },
  { question: 'How was the show?', args: ['debrief', 'scenarios/demo-weekend.csv', '--loop', DEMO] },
];

const only = process.argv.slice(2);
const asked = QUESTIONS.filter(({ args }) => only.length === 0 || only.includes(args[0] ?? ''));
const entries = asked.map(({ question, args }) => {
  const begun = performance.now();
  const { stdout, status, stderr } = spawnSync(
    process.execPath,
    ['packages/sim-core/bin/lapwright.js', ...args, '--json'],
    { encoding: 'utf8', maxBuffer: 2 ** 28 },
  );
  if (status !== 0) throw new Error(`${args.join(' ')}: ${stderr}`);
  const { sentence, shows } = JSON.parse(stdout);
  const seconds = ((performance.now() - begun) / 1000).toFixed(0);
  process.stdout.write(`${args.join(' ')}: ${seconds} s, ${shows} shows\n${sentence}\n\n`);
  const typed = args.map((word) => (/\s/.test(word) ? `"${word}"` : word)).join(' ');
  return `- **${question}** \`npx lapwright ${typed}\`\\\n  ${sentence}`;
});

if (only.length === 0) {
  const text = readFileSync('README.md', 'utf8');
  const [begin, end] = ['<!-- verdicts -->', '<!-- end of verdicts -->'];
  const from = text.indexOf(begin) + begin.length;
  writeFileSync(
    'README.md',
    `${text.slice(0, from)}\n\n${entries.join('\n')}\n\n${text.slice(text.indexOf(end))}`,
  );
}
