import {
  advice,
  alikeReason,
  formatSeconds,
  headline,
  roughCut,
  type RunResult,
  type Scenario,
  shows,
} from '@lapwright/sim-core';
import { toSvg } from '../render/index.js';
import { CAUTIONS } from '../words/index.js';
import { figures } from './figures.js';
import { escapeHtml, htmlFigure, htmlPage, paragraphs, points, tableHtml } from './html.js';
import { exchangesTable, figuresTable, modulesTable } from './tables.js';

/** What the report of a run is made from. */
export interface RunReportInput {
  readonly scenario: Scenario;
  readonly result: RunResult;
  /** The command that gives the same result again. */
  readonly command: string;
}

/**
 * The report of a run as one HTML page: headline and what to do, pictures, tables, how far to trust it, cautions, and
 * where it came from. It needs nothing else: no script, no file beside it, no network. The same input gives the same text.
 *
 * @example
 * (await runReport({ scenario: exampleScenario, result: exampleResult, command: 'lapwright run example.yaml' })).startsWith('<!doctype html>') // => true
 */
export async function runReport({ scenario, result, command }: RunReportInput): Promise<string> {
  const rough = roughCut(scenario.spec);
  const drawn = await Promise.all(
    figures(result, scenario, rough).map(async (figure) =>
      htmlFigure(figure, figure.spec && (await toSvg(figure.spec))),
    ),
  );
  const partial = result.partial
    ? `<p><strong>Partial result:</strong> only ${result.replications} of ${result.replications_asked} shows were simulated.</p>`
    : '';
  const body = [
    `<h1>${escapeHtml(scenario.name)}</h1>`,
    `<p class="note">${escapeHtml(subtitle(result, scenario))}</p>`,
    partial,
    `<div class="lead">${paragraphs(headline(result))}</div>`,
    `<div class="todo"><h2>What to do</h2>${points(advice(result, scenario.spec, rough))}</div>`,
    ...drawn,
    `<section id="figures"><h2>All figures</h2>${tableHtml(figuresTable(result, scenario))}</section>`,
    `<section id="modules"><h2>Module by module</h2>${tableHtml(modulesTable(result, scenario))}\n${exchangesTable(result, scenario)}</section>`,
    `<section id="trust"><h2>How far to trust this</h2>${points(trust(result))}</section>`,
    `<section id="cautions"><h2>Before the public comes in</h2>${points(CAUTIONS)}</section>`,
    provenance(scenario, result, command),
  ];
  return htmlPage(`${scenario.name}: what to expect`, body.filter((part) => part !== '').join('\n'));
}

function subtitle(result: RunResult, { spec, about }: Scenario): string {
  const balls = result.scenario.shape === 'loop' ? `${result.scenario.charge_balls} balls` : 'an open chain';
  const most = Math.max(...spec.crew.duty.map(({ minders }) => minders));
  const spares = spec.spares?.length ?? 0;
  const parts = [
    counted(spec.modules.length, 'module'),
    ...(spares > 0 ? [counted(spares, 'spare')] : []),
    balls,
    counted(most, 'minder'),
    lengthOf(result),
  ];
  const what = `${parts.join(', ')}; ${shows(result.replications)}.`;
  return about === undefined ? what : `${what} ${about.trim()}`;
}

function counted(count: number, what: string): string {
  return `${count} ${what}${count === 1 ? '' : 's'}`;
}

function lengthOf({ horizon_s: horizon, scenario: { sessions } }: RunResult): string {
  return `${formatSeconds(horizon)}${sessions.length > 1 ? ` in ${sessions.length} sessions` : ''}`;
}

function trust(result: RunResult): string[] {
  const alike = alikeReason(result);
  return [
    `Intervals say how much the figures would move with other luck (${shows(result.replications)}); they do not say whether the scenario is right. Rates and times typed in by feel make a result by feel.`,
    ...(alike === undefined ? [] : [alike]),
    'What is simulated: baskets, batches, cycle times, travel, stops, minders and sweeping, and backing up, chutes, levers, spares, the box and sessions where the scenario has them. What is not: the public, tired minders, modules that get worse during the day, two modules failing for one reason.',
    'The simulator agrees with exact results of queueing theory within its own error; the list of checks is part of the project.',
    'Advice names what the figures point at. What a change would really bring shows only in another run.',
  ];
}

function provenance(scenario: Scenario, result: RunResult, command: string): string {
  const entries: [string, string][] = [
    ['Scenario file', scenario.source.file],
    ['SHA-256 of the file', scenario.source.sha256],
    ['Seed', String(result.seed)],
    ['Random numbers', result.generator],
    [
      'Shows simulated',
      `${result.replications} of ${lengthOf(result)}${result.warm_up_s > 0 ? `, the first ${formatSeconds(result.warm_up_s)} not measured` : ', measured from the opening on'}`,
    ],
    ['Program', `lapwright ${result.version}`],
  ];
  const list = entries
    .map(([name, value]) => `<dt>${escapeHtml(name)}</dt><dd>${escapeHtml(value)}</dd>`)
    .join('');
  return `<section id="provenance"><h2>Where this comes from</h2><dl>${list}<dt>The same again</dt><dd><code>${escapeHtml(command)}</code></dd></dl></section>`;
}
