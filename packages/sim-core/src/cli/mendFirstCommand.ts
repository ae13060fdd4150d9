import { MEASURES, measureIndex } from '../experiments/index.js';
import { estimatePhrase, intervalPhrase, KINDS, meanPhrase } from '../findings/index.js';
import { loadScenarioFile } from '../scenario/index.js';
import { type MendFirst, mendFirst } from '../studies/index.js';
import { EXIT, type ExitCode } from './exitCode.js';
import { table, wrap } from './layout.js';
import { checkOutputPaths } from './outputPaths.js';
import { studySession, type StudyCommandOptions } from './studySession.js';
import { writeOutput } from './writeOutput.js';

/** Options of the mend-first command, as the command line gives them. */
export interface MendFirstCommandOptions extends StudyCommandOptions {
  readonly replications: number;
  readonly on: string;
  readonly places: number;
  readonly json?: true | string;
}

/** `lapwright mend-first`: which modules to mend first, by what the show gains if they never stopped. */
export async function mendFirstCommand(file: string, options: MendFirstCommandOptions): Promise<ExitCode> {
  const { spec, name, source } = loadScenarioFile(file);
  checkOutputPaths({ '--json': typeof options.json === 'string' ? options.json : undefined }, file);
  return studySession(options, async (study) => {
    const { replications, on, places, json, seed } = options;
    const ranking = await mendFirst(study, spec, { replications, on, places });
    const result = {
      kind: 'lapwright-mend-first',
      format: 1,
      seed,
      replications,
      scenario: { name, sha256: source.sha256 },
      ...ranking,
    };
    const text = `${JSON.stringify(result, null, 2)}\n`;
    process.stdout.write(json === true ? text : rankingText(ranking));
    if (typeof json === 'string' && !(await writeOutput(json, () => text))) return EXIT.failed;
    return EXIT.ok;
  });
}

/** The ranking in words and figures: what to mend first. */
export function rankingText({ on, now, modules, places }: MendFirst): string {
  const { title, kind: key } = MEASURES[measureIndex(on)] as (typeof MEASURES)[number];
  const kind = KINDS[key];
  const kept = modules.filter(({ dropped_after: dropped }) => dropped === null);
  const [first] = kept;
  if (first === undefined) return 'No module of this loop ever stops.\n';
  const sure = kept.filter(({ gain }) => (gain.low ?? 0) > 0).slice(0, places);
  const sentence =
    sure.length === 0
      ? `No single module would change much if it never stopped: ${title} ${estimatePhrase(now, kind)} as it is.`
      : `Mend ${sure.map(({ id }) => id).join(', then ')} first. Now: ${title} ${estimatePhrase(now, kind)}. If ${sure[0]?.id ?? ''} never stopped that would get better by ${estimatePhrase(sure[0]?.gain ?? now, kind)}.`;
  const rows = kept
    .slice(0, 12)
    .map(({ id, builder = '', gain }) => [
      id,
      builder,
      meanPhrase(gain, kind),
      intervalPhrase(gain, kind),
      String(gain.replications),
    ]);
  const dropped = modules.length - kept.length;
  return `${[
    wrap(sentence),
    table(['if it never stopped', 'builder', 'gain', '95 % interval', 'shows'], rows),
    wrap(
      `Gains in ${title}, each against the same shows as they are. ${dropped === 0 ? '' : `${dropped} more modules were dropped early: they cannot be among the first ${places}. `}The gain of two at once is not the sum.`,
    ),
  ].join('\n\n')}\n`;
}
