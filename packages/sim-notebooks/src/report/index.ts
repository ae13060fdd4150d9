export { answerReport, type AnswerReportInput } from './answerReport.js';
export type { Figure } from './figure.js';
export { figures } from './figures.js';
export { floodCardPage, type FloodCardInput } from './floodCardPage.js';
export { logSheet } from './logSheet.js';
export { type Cell, escapeHtml, htmlTable, paragraphs, points, type TableData } from './html.js';
export { replayReport, type ReplayReportInput, timelineFigures } from './replayReport.js';
export { runReport, type RunReportInput } from './runReport.js';
export { figuresTable, modulesTable } from './tables.js';
