import { roughCut } from '../estimates/index.js';
import { loadScenarioFile } from '../scenario/index.js';
import { checkText } from './checkText.js';
import { EXIT, type ExitCode } from './exitCode.js';

/** `lapwright check`: reads a scenario and says what can be reckoned without simulating. */
export function checkCommand(
  file: string,
  options: { readonly formulas: boolean; readonly json: boolean },
): ExitCode {
  const scenario = loadScenarioFile(file);
  const rough = roughCut(scenario.spec);
  if (options.json) {
    // JSON has no infinity: null stands for "never" and "unlimited".
    const finite = (_: string, value: unknown): unknown => (value === Infinity ? null : value);
    const { name, source, sideTable } = scenario;
    const side = sideTable.map(({ id }) => id);
    const result = {
      kind: 'lapwright-check',
      format: 1,
      scenario: { name, sha256: source.sha256 },
      side_table: side,
      ...snakeCase(rough),
    };
    process.stdout.write(`${JSON.stringify(result, finite, 2)}\n`);
  } else {
    process.stdout.write(checkText(scenario, rough, options.formulas));
  }
  return EXIT.ok;
}

/** The figures under names in the style of the other JSON output: flow_bps, floods_after_s. */
function snakeCase(value: object): Record<string, unknown> {
  return Object.fromEntries(
    Object.entries(value).map(([key, inner]) => {
      const name = key
        .replace(/Bps$/, '_bps')
        .replace(/Seconds$/, '_s')
        .replaceAll(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);
      return [
        name,
        Array.isArray(inner)
          ? inner.map((item: unknown) => (typeof item === 'object' && item !== null ? snakeCase(item) : item))
          : inner,
      ];
    }),
  );
}
