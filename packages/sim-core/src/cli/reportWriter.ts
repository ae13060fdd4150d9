import type { Answer, BuilderPage } from '../answers/index.js';
import { InputError } from '../errors/index.js';
import type { RunResult } from '../experiments/index.js';
import type { LogTemplate } from '../logs/index.js';
import type { ReplayedShow } from '../replay/index.js';
import type { Scenario } from '../scenario/index.js';
import type { FloodCard } from '../studies/index.js';

/** What a report is made from. */
export interface ReportInput {
  readonly scenario: Scenario;
  readonly result: RunResult;
  /** The command that gives the same result again. */
  readonly command: string;
}

/** What the report of a replayed show is made from. */
export interface ReplayReportInput {
  readonly shown: ReplayedShow;
  /** The command that gives the same report again. */
  readonly command: string;
}

/** What the report of an answer is made from. */
export interface AnswerReportInput {
  readonly answer: Answer;
  /** The command that gives the same answer again. */
  readonly command: string;
}

/** What a flood card to print is made from. */
export interface FloodCardInput extends AnswerReportInput {
  readonly card: FloodCard;
}

/** What the pages of a debrief are made from. */
export interface DebriefPagesInput extends AnswerReportInput {
  readonly pages: readonly BuilderPage[];
  /** Whether the page of the club comes first. */
  readonly club: boolean;
}

/** The part of the package of charts that the command line uses. */
export interface ChartsPackage {
  readonly runReport: (input: ReportInput) => Promise<string>;
  readonly answerReport: (input: AnswerReportInput) => Promise<string>;
  readonly debriefPages: (input: DebriefPagesInput) => Promise<string>;
  readonly floodCardPage: (input: FloodCardInput) => string;
  readonly logSheet: (template: LogTemplate) => string;
  readonly replayReport: (input: ReplayReportInput) => Promise<string>;
}

/** Name of the package of charts; it builds on this one, so this one may know it only by name and at run time. */
const CHARTS_PACKAGE = '@lapwright/sim-notebooks';

/**
 * Loads the package of charts, which writes reports.
 *
 * @throws InputError when it is not installed
 */
export async function requireCharts(): Promise<ChartsPackage> {
  try {
    return (await import(CHARTS_PACKAGE)) as ChartsPackage;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ERR_MODULE_NOT_FOUND') throw error;
    throw new InputError([
      {
        code: 'unreadable',
        path: '',
        rule: '--report needs the package @lapwright/sim-notebooks',
        hint: 'Install it beside this one.',
      },
    ]);
  }
}
