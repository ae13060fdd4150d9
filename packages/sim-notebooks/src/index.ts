/*
 * The public names of this package, and nothing else.
 */
export {
  type ChartSpec,
  type Curve,
  type CurvePoint,
  curvesChart,
  type CurvesWords,
  pictureChart,
} from './charts/index.js';
export { type CellDisplay, connect, type Tslab } from './display/index.js';
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
export {
  change,
  check,
  compare,
  type CompareLoopsOptions,
  enough,
  type EnoughOptions,
  explain,
  load,
  Loop,
  type LoopOrigin,
  type LoopSource,
  type MeasureName,
  mendFirst,
  type MendFirstLoopOptions,
  type OwnRows,
  type PictureName,
  replay,
  type ReplayLoopOptions,
  Reply,
  Run,
  run,
  type RunOptions,
  show,
  type Showable,
  type ShowOptions,
  SideBySide,
  sideBySide,
  type SideBySideOptions,
  type SideBySideRow,
  type SimulationOptions,
  Stopped,
  Story,
  table,
  type Where,
} from './session/index.js';
export { CAUTIONS, SHORT_CAUTIONS } from './words/index.js';
