/*
 * Colours that stay apart for colour-blind readers (Okabe & Ito 2008, Color Universal Design) and differ in lightness, so
 * that they also stay apart in black and white.
 */
export const BLUE = '#0072B2';
export const ORANGE = '#D55E00';
export const SKY = '#56B4E9';
export const GREY = '#6B6B6B';
export const INK = '#222222';

/** For three parts of one whole, from dark to light. */
export const THREE_PARTS: readonly string[] = ['#7F3300', '#E69F00', '#F5D9A6'];

/** For five parts of one whole, from dark to light. */
export const FIVE_PARTS: readonly string[] = ['#08519C', '#3182BD', '#9ECAE1', '#E69F00', '#4D4D4D'];

/** Scheme for amounts on a map: lightness falls steadily from little to much. */
export const AMOUNT_SCHEME = 'yelloworangebrown';
