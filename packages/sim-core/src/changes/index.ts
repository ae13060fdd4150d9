export { applyChanges, changedDraft, type ChangedScenario, type ScenarioText } from './applyChanges.js';
export { type Change, changeText, changeWords, type PlaceBeside } from './change.js';
export { ChangeError, type ChangeProblem } from './changeError.js';
export { describeChange, type ValueWords } from './describeChange.js';
export { reorder } from './reorder.js';
export { CHANGE_OPTIONS, parseChanges, type TypedOption } from './parseChanges.js';
export { parseVariant, type Variant } from './parseVariant.js';
export { valueWords } from './valueWords.js';
