import { BARE_NUMBERS, type Dimension, formatNumber, parseQuantity, UNITS } from '../../units/index.js';
import type { Field } from './field.js';

/** Limits of a quantity, in the base unit of its dimension. */
export interface QuantityLimits {
  readonly min: number;
  readonly max: number;
  /** The minimum itself is not allowed. @default false */
  readonly aboveMin?: boolean;
  /** Only whole numbers. @default false */
  readonly whole?: boolean;
}

/** A quantity with its unit, within limits that leave room for every table but not for a slip of the pen. */
export function quantity(dimension: Dimension, limits: QuantityLimits): Field<number> {
  const { min, max, aboveMin = false, whole = false } = limits;
  const rule = describe(dimension, limits);
  return {
    schema: schemaOf(dimension, limits),
    read(found) {
      const parsed = parseQuantity(found.scalar, dimension);
      if (!parsed.ok) {
        const code =
          typeof found.scalar === 'string' || typeof found.scalar === 'number' ? 'wrong_unit' : 'wrong_type';
        return found.wrong(code, parsed.rule, parsed.hint);
      }
      const { value } = parsed;
      const inside = value <= max && (aboveMin ? value > min : value >= min);
      if (!inside || (whole && !Number.isInteger(value))) {
        const percent =
          dimension === 'share' && value > 1 && value <= 100 && typeof found.scalar === 'number';
        return found.wrong(
          'out_of_range',
          rule,
          percent ? `In percent it is written ${value} %.` : undefined,
        );
      }
      return value;
    },
  };
}

const BASE_UNIT: { readonly [dimension in Dimension]: string } = {
  duration: ' s',
  rate: ' bps',
  length: ' mm',
  share: '',
  balls: '',
};

function describe(
  dimension: Dimension,
  { min, max, aboveMin = false, whole = false }: QuantityLimits,
): string {
  const unit = BASE_UNIT[dimension];
  const low = `${formatNumber(min, { digits: 6 })}${unit}`;
  const high = `${formatNumber(max, { digits: 6 })}${unit}`;
  const number = whole ? 'a whole number' : dimension === 'share' ? 'a share' : 'a quantity';
  return aboveMin ? `${number} above ${low}, at most ${high}` : `${number} from ${low} to ${high}`;
}

function schemaOf(
  dimension: Dimension,
  { min, max, aboveMin, whole }: QuantityLimits,
): Record<string, unknown> {
  const number = String.raw`[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?`;
  const units = Object.keys(UNITS[dimension]).join('|');
  const part = String.raw`\s*${number}\s*(${units})`;
  const optionalUnit = String.raw`^\s*${number}\s*(${units})?\s*$`;
  if (!BARE_NUMBERS.includes(dimension)) {
    const pattern = dimension === 'duration' ? String.raw`^(${part})+\s*$` : String.raw`^${part}\s*$`;
    return { type: 'string', pattern };
  }
  return {
    anyOf: [
      {
        type: whole ? 'integer' : 'number',
        [aboveMin ? 'exclusiveMinimum' : 'minimum']: min,
        maximum: max,
      },
      { type: 'string', pattern: optionalUnit },
    ],
  };
}
