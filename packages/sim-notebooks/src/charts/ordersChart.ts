import type { OrdersPicture } from '@lapwright/sim-core';
import { CHART_WIDTH, INK, LINE_HEIGHT, ORANGE } from '../theme/index.js';
import { type ChartSpec, chartSpec } from './chartSpec.js';

const SIDES = ['today', 'proposed'] as const;

/** Two orders side by side: a line for each thing from its place in one to its place in the other. */
export function ordersChart({ before, after, moved, caption }: OrdersPicture): ChartSpec {
  const chosen = new Set(moved);
  const values = before.flatMap((name, place) => {
    const to = after.indexOf(name);
    return to < 0
      ? []
      : [
          { name, side: SIDES[0], place: place + 1, moved: chosen.has(name) },
          { name, side: SIDES[1], place: to + 1, moved: chosen.has(name) },
        ];
  });
  const x = {
    field: 'side',
    type: 'ordinal',
    title: null,
    sort: SIDES,
    scale: { paddingOuter: 0.5 },
    axis: { orient: 'top', labelAngle: 0, domain: false, ticks: false },
  };
  const y = {
    field: 'place',
    type: 'quantitative',
    title: 'place in the loop',
    scale: { reverse: true, zero: false, nice: false, padding: LINE_HEIGHT / 2 },
    axis: { grid: false, tickMinStep: 1 },
  };
  const colour = { condition: { test: 'datum.moved', value: ORANGE }, value: INK };
  const label = (side: string, align: string, dx: number): ChartSpec => ({
    transform: [{ filter: { field: 'side', equal: side } }],
    mark: { type: 'text', align, dx },
    encoding: { x, y, text: { field: 'name' }, color: colour },
  });
  return chartSpec(caption, {
    width: CHART_WIDTH - 60,
    height: Math.max(60, before.length * LINE_HEIGHT),
    data: { values },
    layer: [
      {
        mark: { type: 'line' },
        encoding: {
          x,
          y,
          detail: { field: 'name' },
          color: { condition: { test: 'datum.moved', value: ORANGE }, value: '#BDBDBD' },
          strokeWidth: { condition: { test: 'datum.moved', value: 2.5 }, value: 1 },
        },
      },
      label(SIDES[0], 'right', -8),
      label(SIDES[1], 'left', 8),
    ],
  });
}
