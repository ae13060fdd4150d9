/*
 * The public names of this package, and nothing else.
 */
export { type ChartSpec, pictureChart } from './charts/index.js';
export { toSvg } from './render/index.js';
export {
  answerReport,
  type AnswerReportInput,
  type Figure,
  figures,
  floodCardPage,
  type FloodCardInput,
  replayReport,
  type ReplayReportInput,
  runReport,
  type RunReportInput,
} from './report/index.js';
export { CAUTIONS, SHORT_CAUTIONS } from './words/index.js';
