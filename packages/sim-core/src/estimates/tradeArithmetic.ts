import { requireParameter } from '../errors/index.js';

const GRAVITY_MM = 9806.65;

/**
 * Time of a free fall from rest, seconds: t = sqrt(2 h / g), without drag; g = 9.80665 m/s^2 (standard gravity, 3rd
 * CGPM 1901). For the travel time of a drop.
 *
 * @param heightMm height, millimetres, from 0
 * @throws ParameterError when the height is negative or not finite
 * @example
 * fallSeconds(914.4).toFixed(4) // => '0.4318'
 */
export function fallSeconds(heightMm: number): number {
  requireParameter(
    heightMm >= 0 && heightMm < Infinity,
    'fallSeconds',
    'heightMm',
    heightMm,
    'a finite number from 0',
  );
  return Math.sqrt((2 * heightMm) / GRAVITY_MM);
}

/**
 * Balls expected to be left in a loop after a number of laps, when each passage of a module loses the ball with a small
 * chance and nobody picks any up: K (1 - q)^(modules x laps), and the standard deviation (binomial).
 *
 * @param options.balls balls at the start
 * @param options.leak chance that one passage loses the ball, 0 to 1
 * @throws ParameterError when a number is out of range
 * @example
 * ballsLeftAfterLeaks({ balls: 720, modules: 50, laps: 30, leak: 1e-5 }).mean.toFixed(2) // => '709.28'
 */
export function ballsLeftAfterLeaks(options: {
  readonly balls: number;
  readonly modules: number;
  readonly laps: number;
  readonly leak: number;
}): { readonly mean: number; readonly sd: number } {
  const { balls, modules, laps, leak } = options;
  for (const [name, value] of Object.entries({ balls, modules, laps })) {
    requireParameter(
      value >= 0 && value < Infinity,
      'ballsLeftAfterLeaks',
      name,
      value,
      'a finite number from 0',
    );
  }
  requireParameter(leak >= 0 && leak <= 1, 'ballsLeftAfterLeaks', 'leak', leak, 'from 0 to 1');
  const stays = Math.exp(modules * laps * Math.log1p(-leak));
  return { mean: balls * stays, sd: Math.sqrt(balls * stays * (1 - stays)) };
}

/**
 * Stops expected in a day: a module that starts running, stops after exponential times and is mended after exponential
 * times (alternating renewal process; Cox 1962, Renewal Theory, from memory).
 *
 * With l = 1 / between, m = 1 / repair: l m T / (l + m) + l^2 / (l + m)^2 (1 - exp(-(l + m) T)); l T when the repair
 * takes no time.
 *
 * @param options.seconds length of the day
 * @param options.betweenSeconds mean running time between stops, above 0
 * @param options.repairSeconds mean length of a stop @default 0
 * @throws ParameterError when a number is out of range
 * @example
 * expectedStops({ seconds: 6 * 3600, betweenSeconds: 15 * 60 }) // => 24
 */
export function expectedStops(options: {
  readonly seconds: number;
  readonly betweenSeconds: number;
  readonly repairSeconds?: number;
}): number {
  const { seconds, betweenSeconds, repairSeconds = 0 } = options;
  requireParameter(
    seconds >= 0 && seconds < Infinity,
    'expectedStops',
    'seconds',
    seconds,
    'a finite number from 0',
  );
  requireParameter(betweenSeconds > 0, 'expectedStops', 'betweenSeconds', betweenSeconds, 'above 0');
  requireParameter(repairSeconds >= 0, 'expectedStops', 'repairSeconds', repairSeconds, 'from 0');
  if (repairSeconds === 0) return seconds / betweenSeconds;
  const stop = 1 / betweenSeconds;
  const mend = 1 / repairSeconds;
  const both = stop + mend;
  return (stop * mend * seconds) / both - (stop / both) ** 2 * Math.expm1(-both * seconds);
}
