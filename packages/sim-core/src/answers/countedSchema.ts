import { group, listOf, number, type Schema, text } from '../experiments/index.js';

/** Modules whose figures were counted, each with for how many seconds. */
export const COUNTED_MODULES: Schema = listOf(group({ module: text, counted_s: number }));
