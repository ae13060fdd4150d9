export { answerReport, type AnswerReportInput } from './answerReport.js';
export type { Figure } from './figure.js';
export { figures } from './figures.js';
export { floodCardPage, type FloodCardInput } from './floodCardPage.js';
export { escapeHtml } from './html.js';
export { replayReport, type ReplayReportInput } from './replayReport.js';
export { runReport, type RunReportInput } from './runReport.js';
