export { type Figure, figures } from './figures.js';
export { escapeHtml } from './html.js';
export { runReport, type RunReportInput } from './runReport.js';
