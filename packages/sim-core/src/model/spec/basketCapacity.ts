import { requireParameter } from '../../errors/index.js';

/** Size of a basket and of the balls in it, millimetres. */
export interface BasketSize {
  readonly widthMm: number;
  readonly depthMm: number;
  readonly heightMm: number;
  /** Diameter of a ball. @default 14 */
  readonly ballMm?: number;
  /**
   * Share of the volume that balls fill. Random packing of equal spheres: 0.60 poured, 0.64 shaken down (Scott 1960,
   * Nature 188, 908-909; Bernal & Mason 1960, Nature 188, 910-911; from memory). @default 0.6
   */
  readonly packing?: number;
}

/**
 * Balls that a rectangular basket holds, filled level: floor(packing x volume / (pi/6 x diameter^3)).
 *
 * The walls of a basket only a few balls wide keep balls apart; 0.56 is the safer figure there.
 *
 * @throws ParameterError when a size is not above 0 or the packing is not above 0 and below 0.7405
 * @example
 * basketCapacity({ widthMm: 64, depthMm: 64, heightMm: 96 }) // => 164
 */
export function basketCapacity(size: BasketSize): number {
  const { widthMm, depthMm, heightMm, ballMm = 14, packing = 0.6 } = size;
  for (const [name, value] of Object.entries({ widthMm, depthMm, heightMm, ballMm })) {
    requireParameter(value > 0 && value < Infinity, 'basketCapacity', name, value, 'a finite number above 0');
  }
  requireParameter(
    packing > 0 && packing < 0.7405,
    'basketCapacity',
    'packing',
    packing,
    'above 0 and below 0.7405',
  );
  return Math.floor((packing * widthMm * depthMm * heightMm) / ((Math.PI / 6) * ballMm ** 3));
}
