import type { LoopSpec } from '../model/spec/index.js';
import { clockLabel } from '../units/index.js';

/**
 * Times of the show at which nobody is on duty although modules may need a minder, in words; undefined when there are
 * none.
 *
 * @example
 * unattended(exampleLoop) // => undefined
 */
export function unattended({ modules, crew, show }: LoopSpec): string | undefined {
  const needed = modules.some(
    ({ stops, pull }) => pull !== undefined || stops.some(({ remedy }) => remedy.kind === 'crew'),
  );
  if (!needed) return undefined;
  const gaps = crew.duty.flatMap(({ fromSeconds, minders }, i) => {
    const to = Math.min(show.seconds, crew.duty[i + 1]?.fromSeconds ?? show.seconds);
    return minders === 0 && fromSeconds < to ? [{ from: fromSeconds, to }] : [];
  });
  if (gaps.length === 0) return undefined;
  const [first] = gaps;
  if (gaps.length === 1 && first?.from === 0 && first.to === show.seconds) return 'Nobody is on duty';
  const parts = gaps.map(
    ({ from, to }) => `from ${clockLabel(show, from)} to ${clockLabel(show, to, { end: true })}`,
  );
  return `Nobody is on duty ${parts.join(', ')}`;
}
