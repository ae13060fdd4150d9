import type { PlaceState } from '@lapwright/sim-core';
import { STATE_WORDS } from '../rows/index.js';
import { INK, LINE_HEIGHT, ORANGE, STATE_LOOKS } from '../theme/index.js';
import type { ChartSpec } from './chartSpec.js';

const SAMPLE = 24;
const LETTER = 5.8;
const LINE = 20;

interface Entry {
  readonly words: string;
  readonly left: number;
  readonly top: number;
}

/** The key of a timeline, drawn with the same marks: bars that differ in height need more than coloured squares. */
export function timelineLegend(
  width: number,
  states: ReadonlySet<PlaceState>,
  falls: boolean,
  sizes: ChartSpec,
): ChartSpec {
  const used = STATE_WORDS.filter(({ state }) => states.has(state));
  const words = [
    ...used.map((entry) => entry.words),
    ...(falls ? ['1 ball spilled', '20 balls', '100 or more'] : []),
  ];
  const places = layOut(words, width);
  const height = LINE * (1 + Math.max(0, ...places.map(({ top }) => top / LINE)));
  const x = { type: 'quantitative', scale: { domain: [0, width], nice: false, zero: false }, axis: null };
  const y = { type: 'quantitative', scale: { domain: [height, 0], nice: false, zero: false }, axis: null };
  const bars = used.flatMap(({ state }, i) => {
    const place = places[i];
    const look = STATE_LOOKS.find((candidate) => candidate.state === state);
    if (place === undefined || look === undefined) return [];
    const half = (look.height * LINE_HEIGHT) / 2;
    const row = {
      x: place.left,
      x2: place.left + SAMPLE,
      y: place.top + 10 - half,
      y2: place.top + 10 + half,
    };
    return [
      {
        data: { values: [row] },
        mark: {
          type: 'rect',
          aria: false,
          color: look.hollow ? 'white' : look.colour,
          ...(look.hollow && { stroke: look.colour, strokeWidth: 1.5 }),
        },
        encoding: {
          x: { field: 'x', ...x },
          x2: { field: 'x2' },
          y: { field: 'y', ...y },
          y2: { field: 'y2' },
        },
      },
    ];
  });
  const circles = places.slice(used.length).map(({ left, top }, i) => ({
    x: left + SAMPLE / 2,
    y: top + 10,
    balls: [1, 20, 100][i],
  }));
  return {
    width,
    height,
    view: { stroke: null },
    layer: [
      ...bars,
      ...(circles.length === 0
        ? []
        : [
            {
              data: { values: circles },
              mark: { type: 'point', filled: true, aria: false, color: ORANGE, opacity: 1 },
              encoding: {
                x: { field: 'x', ...x },
                y: { field: 'y', ...y },
                size: {
                  field: 'balls',
                  type: 'quantitative',
                  scale: { ...sizes, clamp: true },
                  legend: null,
                },
              },
            },
          ]),
      {
        data: {
          values: places.map(({ words: text, left, top }) => ({ text, x: left + SAMPLE + 6, y: top + 10 })),
        },
        mark: { type: 'text', align: 'left', baseline: 'middle', color: INK },
        encoding: { x: { field: 'x', ...x }, y: { field: 'y', ...y }, text: { field: 'text' } },
      },
    ],
  };
}

/** One entry after another, on a new line where the width ends. */
function layOut(words: readonly string[], width: number): Entry[] {
  let left = 0;
  let top = 0;
  return words.map((text) => {
    const needed = SAMPLE + 6 + LETTER * text.length + 16;
    if (left > 0 && left + needed > width) {
      left = 0;
      top += LINE;
    }
    const entry = { words: text, left, top };
    left += needed;
    return entry;
  });
}
