import { MEASURES, measureIndex } from '../../experiments/index.js';
import { parseQuantity } from '../../units/index.js';
import { argumentFault } from './argumentFault.js';

/**
 * An amount of a measure as it was typed, such as `5 %`, `0.9 bps`, `12 min` or a bare number in the unit of the measure.
 *
 * @param option for messages, such as `--limit`
 * @throws InputError when it is none
 */
export function measureAmount(text: string, measure: string, option: string): number {
  const { kind, title } = MEASURES[measureIndex(measure)] as (typeof MEASURES)[number];
  const dimension = ({ share: 'share', time: 'duration', bps: 'rate' } as const)[kind as 'share'];
  const bare = text.trim() === '' ? NaN : Number(text);
  const read: unknown = Number.isFinite(bare) || dimension === undefined ? bare : quantity(text, dimension);
  const found = typeof read === 'number' ? read : NaN;
  const example = { share: '5 %', time: '12 min', bps: '0.9 bps', perHour: '20', perShow: '2' }[kind];
  if (!(found >= 0 && found < Infinity))
    throw argumentFault(
      option,
      `"${text.slice(0, 60)}" is no amount of ${measure} (${title})`,
      `Such as ${option} '${example}'.`,
      'out_of_range',
    );
  if (kind === 'share' && found > 1)
    throw argumentFault(
      option,
      `"${text.slice(0, 60)}" is more than all: ${measure} is a share from 0 to 1`,
      found <= 100 ? `In percent it is written '${found} %'.` : "Such as '5 %' or 0.05.",
      'out_of_range',
    );
  return found;
}

function quantity(text: string, dimension: 'share' | 'duration' | 'rate'): number {
  const read = parseQuantity(text, dimension);
  return read.ok ? read.value : NaN;
}

/**
 * How far, as it was typed: a share of a figure such as `5 %`, or an amount of the measure.
 *
 * @throws InputError when it is neither, or not above 0 where it must be
 */
export function measureDistance(
  text: string,
  measure: string,
  option: string,
  least: 'from 0' | 'above 0',
): { readonly relative: number } | { readonly absolute: number } {
  const [, percent] = /^\s*([\d.]+)\s*%\s*$/.exec(text) ?? [];
  const found =
    percent === undefined
      ? { absolute: measureAmount(text, measure, option) }
      : { relative: Number(percent) / 100 };
  const value = 'absolute' in found ? found.absolute : found.relative;
  if (!(value >= 0) || (least === 'above 0' && value === 0))
    throw argumentFault(
      option,
      `"${text.slice(0, 60)}" is not ${least}`,
      `Such as ${option} '5 %', a share of the figure.`,
      'out_of_range',
    );
  return found;
}
