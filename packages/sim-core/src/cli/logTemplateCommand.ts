import { logTemplate, templateCsv } from '../logs/index.js';
import { EXIT, type ExitCode } from './exitCode.js';
import { checkOutputPaths } from './outputPaths.js';
import { requireCharts } from './reportWriter.js';
import { writeOutput } from './writeOutput.js';

/** `lapwright log-template`: prints a log to begin with, or writes a sheet to print. */
export async function logTemplateCommand(
  kind: 'bench' | 'show',
  { report }: { readonly report?: string },
): Promise<ExitCode> {
  const template = logTemplate(kind);
  if (report === undefined) {
    process.stdout.write(templateCsv(template));
    return EXIT.ok;
  }
  checkOutputPaths({ '--report': report }, []);
  const { logSheet } = await requireCharts();
  return (await writeOutput(report, () => logSheet(template))) ? EXIT.ok : EXIT.failed;
}
