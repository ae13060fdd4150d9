export { type DrawnChart, imageBundle, liveBundle } from './chartBundle.js';
export {
  type CellDisplay,
  connect,
  currentCell,
  inNotebook,
  lastingOutput,
  type MediaBundle,
  output,
  type Tslab,
} from './connection.js';
export { ProgressBar } from './progressBar.js';
