import { buildDistribution, type DistributionSpec } from '../../distributions/index.js';
import { ParameterError, showValue } from '../../errors/index.js';
import type { Found } from '../found.js';
import { group, type GroupRead, listOf, mapped, oneKey, shortOrLong } from './compound.js';
import type { Field, JsonSchema } from './field.js';
import { quantity } from './quantity.js';
import { plainNumber } from './simple.js';

const DAY = 86400;

/** Limits of a random time, seconds. */
export interface DurationLimits {
  /** Least mean; 0 when the time may be nothing. */
  readonly min: number;
  readonly max: number;
}

/**
 * A time that is always the same (`3.6 s`) or random (`{ lognormal: { mean: 3.6 s, cv: 0.05 } }`).
 */
export function randomDuration({ min, max }: DurationLimits): Field<DistributionSpec> {
  const short = mapped(quantity('duration', { min, max }), (value): DistributionSpec => ({
    family: 'constant',
    value,
  }));
  const long = mapped(families, (read, found) => checked(specOf(read), found, min, max));
  return { schema: { $ref: '#/$defs/time' }, read: shortOrLong(short, long).read };
}

const time = quantity('duration', { min: 0, max: 60 * DAY });
const positive = quantity('duration', { min: 0, max: 60 * DAY, aboveMin: true });
const cv = plainNumber({ min: 0, max: 100 });
const mean = { field: positive, doc: 'Mean, with its unit.', required: true };
const spread = {
  field: cv,
  doc: 'Coefficient of variation: standard deviation divided by mean.',
  required: true,
};

const families = oneKey({
  uniform: {
    field: group({
      min: { field: time, doc: 'Shortest time.', required: true },
      max: { field: time, doc: 'Longest time.', required: true },
    }),
    doc: 'Any time between two limits, all equally likely.',
  },
  triangular: {
    field: group({
      min: { field: time, doc: 'Shortest time.', required: true },
      mode: { field: time, doc: 'Most likely time.', required: true },
      max: { field: time, doc: 'Longest time.', required: true },
    }),
    doc: 'Between two limits, most often near a third value.',
  },
  normal: {
    field: group({ mean, cv: spread }),
    doc: 'Normal, cut off below zero; mean and cv are those before the cut.',
  },
  lognormal: { field: group({ mean, cv: spread }), doc: 'Never negative, with a tail of long times.' },
  gamma: { field: group({ mean, cv: spread }), doc: 'Gamma distribution.' },
  erlang: {
    field: group({
      mean,
      stages: {
        field: plainNumber({ min: 1, max: 1000, whole: true }),
        doc: 'Number of exponential stages.',
        required: true,
      },
    }),
    doc: 'Sum of equal exponential stages.',
  },
  exponential: { field: group({ mean }), doc: 'Memoryless times between chance events.' },
  weibull: {
    field: group(
      {
        mean: { field: positive, doc: 'Mean; give it with cv.' },
        cv: { field: cv, doc: 'Coefficient of variation; give it with mean.' },
        scale: { field: positive, doc: 'Scale (63 % have happened by then); give it with shape.' },
        shape: {
          field: plainNumber({ min: 0.1, max: 1000 }),
          doc: 'Shape: above 1 wears out, below 1 fails early.',
        },
      },
      {
        exactlyOne: [
          ['mean', 'scale'],
          ['cv', 'shape'],
        ],
      },
    ),
    doc: 'Times to failure that know their age.',
  },
  empirical: {
    field: listOf(time, { min: 1, max: 10_000 }),
    doc: 'Measured times, each as likely as it was seen.',
  },
});

/** The schema of a random time, defined once because it stands in dozens of places. */
export const TIME_SCHEMA: JsonSchema = {
  description:
    'A time that is always the same (3.6 s), or a distribution ({ lognormal: { mean: 3.6 s, cv: 0.05 } }).',
  anyOf: [time.schema, families.schema],
};

type Families = GroupRead<Readonly<Record<string, { field: Field<unknown>; doc: string }>>>;

/** The one family that was given, as plain data; undefined when something in it is missing (already reported). */
function specOf(read: Families): unknown {
  for (const [family, value] of Object.entries(read)) {
    if (family === 'found' || value === undefined) continue;
    if (family === 'empirical') return { family, values: value };
    const { found, ...parameters } = value as {
      readonly found: Found;
      readonly [parameter: string]: unknown;
    };
    if (family === 'weibull' && 'mean' in parameters && 'shape' in parameters) {
      return found.report('contradiction', 'mean goes with cv, and scale with shape');
    }
    return Object.values(parameters).includes(undefined) ? undefined : { family, ...parameters };
  }
  return undefined;
}

/** Builds the distribution once, so that what only shows together (limits out of order) is reported here. */
function checked(spec: unknown, found: Found, min: number, max: number): DistributionSpec | undefined {
  if (spec === undefined) return undefined;
  const candidate = spec as DistributionSpec;
  try {
    const { mean } = buildDistribution(candidate);
    if (Number.isNaN(mean)) return undefined;
    if (mean < min || mean > max) {
      return found.report('out_of_range', `the mean is ${mean} s, but must be from ${min} s to ${max} s`);
    }
    return candidate;
  } catch (error) {
    if (!(error instanceof ParameterError)) throw error;
    const { parameter, found: value, rule } = error;
    // A parameter that is missing altogether has been reported already.
    if (value === undefined || Number.isNaN(value)) return undefined;
    return found.report('out_of_range', `${parameter} is ${showValue(value)} but must be ${rule}`);
  }
}
