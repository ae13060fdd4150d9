import type { ChartSpec } from './chartSpec.js';

/** What a chart needs to know of the show's hours. */
export interface ShowHours {
  readonly from: number;
  readonly to: number;
  /** Whether hours are times of day or counted from the opening. */
  readonly byTheClock: boolean;
}

const STEPS = [1 / 12, 1 / 6, 0.25, 0.5, 1, 2, 3, 6, 12, 24, 48, 96];

/** The x channel over the hours of the show, with round ticks and labels such as 10:30 or 1:30. */
export function timeChannel(field: string, hours: ShowHours): ChartSpec {
  const { from, to, byTheClock } = hours;
  const step = STEPS.find((size) => (to - from) / size <= 12) ?? 168;
  const first = Math.ceil(from / step - 1e-9);
  const count = Math.floor(to / step + 1e-9) - first + 1;
  const values = Array.from({ length: Math.max(1, count) }, (_, i) => (first + i) * step);
  const minutes = 'round((datum.value % 1) * 60) % 60';
  return {
    field,
    type: 'quantitative',
    title: byTheClock ? 'time of day' : 'hours since the opening',
    scale: { domain: [from, to], nice: false, zero: false },
    axis: {
      values,
      grid: false,
      labelFlush: false,
      labelExpr: `floor(datum.value + 0.001) % ${byTheClock ? 24 : 100000} + ':' + (${minutes} < 10 ? '0' : '') + ${minutes}`,
    },
  };
}
