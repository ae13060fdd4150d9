import { toAnswer } from '../../answers/index.js';
import type { StopClock } from '../../calibration/index.js';
import { InputError } from '../../errors/index.js';
import { loadScenarioFile, readScenarioText } from '../../scenario/index.js';
import { EXIT, type ExitCode } from '../exitCode.js';
import { checkOutputPaths } from '../outputPaths.js';
import { logReadText } from '../readLogs.js';
import { requireCharts } from '../reportWriter.js';
import { writeOutput } from '../writeOutput.js';
import { answerText } from './answerText.js';
import { fitLogs, fittedParts, scenarioWithFits } from './fitQuestion.js';
import { sameAgain } from './sameAgain.js';
import { scenarioReference } from './scenarioReference.js';

/** Options of the fit command, as the command line gives them. */
export interface FitCommandOptions {
  readonly loop?: string;
  readonly into?: string;
  readonly module?: readonly string[];
  readonly clock: StopClock;
  readonly batch?: number;
  readonly reach: number;
  readonly seed: number;
  readonly json?: true | string;
  readonly report?: string;
}

/** `lapwright fit`: what logs say of modules, with what they leave open; into a scenario if asked. */
export async function fitCommand(
  logs: readonly string[],
  options: FitCommandOptions,
  args: readonly string[],
): Promise<ExitCode> {
  const { loop, into, json, report, module: modules, clock, batch, reach, seed } = options;
  if (into !== undefined && loop === undefined) throw withoutLoop();
  const scenario = loop === undefined ? undefined : loadScenarioFile(loop);
  checkOutputPaths(
    { '--json': typeof json === 'string' ? json : undefined, '--report': report, '--into': into },
    [...(loop === undefined ? [] : [loop]), ...logs],
  );
  const charts = report === undefined ? undefined : await requireCharts();
  const fitted = fitLogs(logs, scenario, {
    clock,
    reach,
    seed,
    ...(modules !== undefined && { modules }),
    ...(batch !== undefined && { batch }),
  });
  process.stderr.write(logReadText(fitted.log));
  for (const line of [...fitted.renamed, ...fitted.leftOut]) process.stderr.write(`lapwright: ${line}\n`);
  const writes = into !== undefined && loop !== undefined && scenario !== undefined && fitted.fits.length > 0;
  let text: string | undefined;
  let refused: unknown;
  try {
    if (writes) text = scenarioWithFits(readScenarioText(loop).text, into, scenario, fitted);
  } catch (error) {
    // What the logs say is told all the same.
    refused = error;
  }
  const answer = toAnswer(fittedParts(logs, fitted, text === undefined ? null : (into ?? null)), {
    seed,
    scenarios: scenario === undefined ? [] : [scenarioReference(scenario)],
    shows: 0,
  });
  const told = `${JSON.stringify(answer, null, 2)}\n`;
  process.stdout.write(json === true ? told : answerText(answer));
  let ok = true;
  if (into !== undefined && text !== undefined) ok = await writeOutput(into, () => text);
  if (typeof json === 'string') ok = (await writeOutput(json, () => told)) && ok;
  if (report !== undefined && charts !== undefined)
    ok = (await writeOutput(report, () => charts.answerReport({ answer, command: sameAgain(args) }))) && ok;
  if (refused !== undefined) throw refused;
  if (into !== undefined && !writes) {
    process.stderr.write(`lapwright: ${into} is not written: no module could be fitted\n`);
    ok = false;
  }
  return ok ? EXIT.ok : EXIT.failed;
}

function withoutLoop(): InputError {
  return new InputError([
    {
      code: 'missing_key',
      path: '--loop',
      rule: '--into needs the scenario that the figures are put into',
      hint: 'Name it with --loop my-loop.yaml; it stays as it is.',
    },
  ]);
}
