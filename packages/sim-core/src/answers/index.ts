export {
  type Answer,
  type AnswerOrigin,
  type AnswerParts,
  type AnswerTable,
  type Question,
  QUESTIONS,
  type ScenarioReference,
  toAnswer,
} from './answer.js';
export { answerSchema } from './answerSchema.js';
export { bestOfAnswer } from './bestOfAnswer.js';
export { bestOrderAnswer } from './bestOrderAnswer.js';
export { compareAnswer } from './compareAnswer.js';
export { type BuilderPage, debriefAnswer, type DebriefContext } from './debriefAnswer.js';
export { enoughAnswer } from './enoughAnswer.js';
export { howRareAnswer } from './howRareAnswer.js';
export { inlineAnswer } from './inlineAnswer.js';
export { watchedFor } from './causeWords.js';
export { fitAnswer, type FitContext } from './fitAnswer.js';
export { howManyAnswer } from './howManyAnswer.js';
export { matchAnswer, type MatchContext } from './matchAnswer.js';
export { mendFirstAnswer } from './mendFirstAnswer.js';
export { sparesAnswer } from './sparesAnswer.js';
export type {
  IntervalsPicture,
  KindName,
  OrdersPicture,
  Picture,
  PictureLine,
  PointsPicture,
  RibbonPicture,
} from './picture.js';
export { firstAidWords, floodCardAnswer } from './floodCardAnswer.js';
export { type StopMoment, whenItStopsAnswer } from './whenItStopsAnswer.js';
