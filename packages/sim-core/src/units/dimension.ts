/** What a quantity measures. */
export type Dimension = 'duration' | 'rate' | 'length' | 'share' | 'balls';

/** The units of each dimension with their size in the base unit: seconds, balls per second, millimetres, 1, balls. */
export const UNITS: { readonly [dimension in Dimension]: Readonly<Record<string, number>> } = {
  duration: { ms: 0.001, s: 1, min: 60, h: 3600, d: 86400 },
  rate: { bps: 1, 'balls/s': 1, 'balls/min': 1 / 60, 'balls/h': 1 / 3600 },
  length: { mm: 1, cm: 10, m: 1000, studs: 8, stud: 8, bricks: 9.6, brick: 9.6 },
  share: { '%': 0.01 },
  balls: { balls: 1, ball: 1 },
};

/** Examples for messages: how a quantity of each dimension is written. */
export const UNIT_EXAMPLES: { readonly [dimension in Dimension]: string } = {
  duration: '3.6 s, 12 min or 1 h 30 min',
  rate: '1 bps (balls per second) or 50 balls/min',
  length: '64 mm, 6.4 cm, 8 studs or 10 bricks',
  share: '0.05 or 5 %',
  balls: '150 or 150 balls',
};

/** Dimensions whose quantities may also be written as a bare number, because a share and a count have no unit. */
export const BARE_NUMBERS: readonly Dimension[] = ['share', 'balls'];
