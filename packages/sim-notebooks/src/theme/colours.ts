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

/**
 * For the places that balls can be in: on the path from dark to light, then beside it. The greens and purples of that
 * palette come too close to the blues for some colour-blind readers; a test measures it.
 */
export const PLACE_COLOURS = {
  baskets: '#08519C',
  mechanisms: '#3182BD',
  run_outs: '#9ECAE1',
  chutes: '#698C5A',
  floor: '#E69F00',
  box: '#885500',
  lost: '#4D4D4D',
} as const;

/** Scheme for amounts on a map: lightness falls steadily from little to much. */
export const AMOUNT_SCHEME = 'yelloworangebrown';
