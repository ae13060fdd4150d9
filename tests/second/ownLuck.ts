import { Dice } from './generator.js';
import type { Luck, Time } from './luck.js';

/** Luck from a generator of its own: one stream for everything, in the order in which the show asks. */
export function ownLuck(seed: number): Luck {
  const dice = new Dice(seed);
  return {
    time: (_owner, _purpose, spec) => sample(dice, spec),
    chance: (_owner, _purpose, probability) => probability >= 1 || dice.chance(probability),
    uniform: () => dice.uniform(),
    phase: (_owner, cycle) => dice.uniform() * mean(cycle),
  };
}

/** A random time, from the definition of its family. */
export function sample(dice: Dice, spec: Time): number {
  switch (spec.family) {
    case 'constant':
      return spec.value;
    case 'uniform':
      return spec.min + (spec.max - spec.min) * dice.uniform();
    case 'triangular':
      return triangle(dice.uniform(), spec);
    case 'exponential':
      return -spec.mean * Math.log(dice.uniform());
    case 'erlang':
      return Array.from({ length: spec.stages }, () => exponential(dice, spec.mean / spec.stages)).reduce(
        (sum, stage) => sum + stage,
        0,
      );
    case 'gamma':
      return gamma(dice, 1 / spec.cv ** 2) * spec.mean * spec.cv ** 2;
    case 'lognormal': {
      const sigma = Math.sqrt(Math.log(1 + spec.cv ** 2));
      return spec.mean * Math.exp(sigma * normal(dice) - sigma ** 2 / 2);
    }
    case 'normal': {
      for (;;) {
        const time = spec.mean * (1 + spec.cv * normal(dice));
        if (time >= 0) return time;
      }
    }
    case 'weibull': {
      if (!('scale' in spec)) throw new Error('give a Weibull time by scale and shape');
      return spec.scale * exponential(dice, 1) ** (1 / spec.shape);
    }
    case 'empirical':
      return dice.oneOf(spec.values);
  }
}

/** Mean of the families used for cycles of continuous drives. */
function mean(spec: Time): number {
  switch (spec.family) {
    case 'constant':
      return spec.value;
    case 'uniform':
      return (spec.min + spec.max) / 2;
    case 'triangular':
      return (spec.min + spec.mode + spec.max) / 3;
    case 'empirical':
      return spec.values.reduce((sum, value) => sum + value, 0) / spec.values.length;
    case 'exponential':
    case 'erlang':
    case 'gamma':
    case 'lognormal':
      return spec.mean;
    default:
      throw new Error(`no mean for ${spec.family}`);
  }
}

const exponential = (dice: Dice, mean: number): number => -mean * Math.log(dice.uniform());

/** Standard normal, by Box and Muller. */
const normal = (dice: Dice): number =>
  Math.sqrt(-2 * Math.log(dice.uniform())) * Math.cos(2 * Math.PI * dice.uniform());

/** Gamma with scale 1: Marsaglia & Tsang 2000, ACM Transactions on Mathematical Software 26, 363-372. */
function gamma(dice: Dice, shape: number): number {
  if (shape < 1) return gamma(dice, shape + 1) * dice.uniform() ** (1 / shape);
  const d = shape - 1 / 3;
  for (;;) {
    const x = normal(dice);
    const v = (1 + x / Math.sqrt(9 * d)) ** 3;
    if (v > 0 && Math.log(dice.uniform()) < (x * x) / 2 + d * (1 - v + Math.log(v))) return d * v;
  }
}

function triangle(u: number, { min, mode, max }: { min: number; mode: number; max: number }): number {
  const rise = (mode - min) / (max - min);
  return u < rise
    ? min + Math.sqrt(u * (max - min) * (mode - min))
    : max - Math.sqrt((1 - u) * (max - min) * (max - mode));
}
