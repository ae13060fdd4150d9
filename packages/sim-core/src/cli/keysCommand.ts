import { scenarioKeys } from '../scenario/index.js';
import { EXIT, type ExitCode } from './exitCode.js';
import { wrap } from './layout.js';

/** `lapwright keys`: prints every key of a scenario file with its explanation. */
export function keysCommand(): ExitCode {
  const lines = scenarioKeys().map(({ path, doc, required }) =>
    wrap(`${path}${required ? ' (needed)' : ''}: ${doc}`, '    '),
  );
  const intro = wrap(
    'Every key of a scenario file. <name> is a name of your own; [] an item of a list. Times carry their unit (3.6 s, 12 min, 1 h 30 min), rates bps, lengths mm, cm, studs or bricks; shares are 0.05 or 5 %.',
  );
  process.stdout.write(`${intro}\n\n${lines.join('\n')}\n`);
  return EXIT.ok;
}
