export { textWidth } from './textWidth.js';
export { toSvg } from './toSvg.js';
