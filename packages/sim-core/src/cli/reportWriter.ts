import type { RunResult } from '../experiments/index.js';
import type { Scenario } from '../scenario/index.js';

/** What a report is made from. */
export interface ReportInput {
  readonly scenario: Scenario;
  readonly result: RunResult;
  /** The command that gives the same result again. */
  readonly command: string;
}

/** The part of the package of charts that the command line uses. */
interface ChartsPackage {
  readonly runReport: (input: ReportInput) => Promise<string>;
}

/** Name of the package of charts; it builds on this one, so this one may know it only by name and at run time. */
const CHARTS_PACKAGE = '@lapwright/sim-notebooks';

/**
 * Loads the writer of reports.
 *
 * @returns undefined when the package of charts is not installed
 */
export async function loadReportWriter(): Promise<ChartsPackage['runReport'] | undefined> {
  try {
    const charts = (await import(CHARTS_PACKAGE)) as ChartsPackage;
    return charts.runReport;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ERR_MODULE_NOT_FOUND') return undefined;
    throw error;
  }
}
