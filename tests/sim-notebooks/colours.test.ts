import {
  type Colour,
  converter,
  differenceCiede2000,
  filterDeficiencyDeuter,
  filterDeficiencyProt,
  filterDeficiencyTrit,
  formatHex,
  wcagContrast,
} from 'culori';
import { describe, expect, it } from 'vitest';
import {
  BLUE,
  GREY,
  INK,
  ORANGE,
  PLACE_COLOURS,
  SKY,
  STATE_LOOKS,
  THREE_PARTS,
} from '../../packages/sim-notebooks/src/theme/index.js';

/*
 * Whether the colours of the charts can be read and told apart, on the white paper that every chart brings: contrast by
 * WCAG 2.1 (1.4.3 for text, 1.4.11 for marks), difference by CIEDE2000 (Sharma, Wu & Dalal 2005, Color Research and
 * Application 30, 21-30), colour blindness after Machado, Oliveira & Fernandes 2009 (IEEE Transactions on Visualization and
 * Computer Graphics 15, 1291-1298), complete lack of one kind of cone.
 */
const PAPER = '#FFFFFF';
const difference = differenceCiede2000();

type Filter = (colour: Colour | string) => Colour;

/** The matrices are applied to the numbers of the colour and, as other programs do, to linear light: both must do. */
const toLinear = converter('lrgb');
function onLight(filter: Filter): (colour: string) => string {
  return (colour) => {
    const { r = 0, g = 0, b = 0 } = toLinear(colour);
    return formatHex({ ...filter({ mode: 'rgb', r, g, b }), mode: 'lrgb' });
  };
}
const onNumbers =
  (filter: Filter) =>
  (colour: string): string =>
    formatHex(filter(colour));

const EYES: readonly (readonly [string, (colour: string) => string])[] = [
  ['usual eyes', (colour) => colour],
  ...(
    [
      ['eyes without red cones', filterDeficiencyProt(1)],
      ['eyes without green cones', filterDeficiencyDeuter(1)],
      ['eyes without blue cones', filterDeficiencyTrit(1)],
    ] as const
  ).flatMap(
    ([name, filter]) =>
      [
        [name, onNumbers(filter)],
        [`${name}, in linear light`, onLight(filter)],
      ] as const,
  ),
];

describe('the measures themselves agree with published values', () => {
  it('contrast: black on white is 21, the limit grey of 4.5 is #767676 (WCAG 2.1)', () => {
    expect(wcagContrast('#000000', '#ffffff')).toBeCloseTo(21, 10);
    expect(wcagContrast('#767676', '#ffffff')).toBeGreaterThan(4.5);
    expect(wcagContrast('#777777', '#ffffff')).toBeLessThan(4.5);
  });

  it('CIEDE2000: pairs 1 and 7 of table 1 of Sharma, Wu & Dalal 2005', () => {
    const lab = (l: number, a: number, b: number) => ({ mode: 'lab65', l, a, b });
    expect(difference(lab(50, 2.6772, -79.7751), lab(50, 0, -82.7485))).toBeCloseTo(2.0425, 3);
    expect(difference(lab(50, 0, 0), lab(50, -1, 2))).toBeCloseTo(2.3669, 3);
  });

  it('colour blindness: the first column of the matrix of Machado et al. 2009 for no red cones, severity 1', () => {
    const { r, g, b } = filterDeficiencyProt(1)({ mode: 'rgb', r: 1, g: 0, b: 0 });
    for (const [found, published] of [
      [r, 0.152286],
      [g, 0.114503],
      [b, -0.003882],
    ] as const)
      expect(found).toBeCloseTo(published, 6);
    // Rows sum to 1: greys stay grey.
    for (const [, seen] of EYES) expect(seen('#808080').toUpperCase()).toBe('#808080');
  });
});

describe('contrast with the paper', () => {
  it('of text is at least 4.5', () => {
    for (const colour of [INK, GREY]) expect(wcagContrast(colour, PAPER), colour).toBeGreaterThanOrEqual(4.5);
  });

  it('of the marks that carry the figure is at least 3', () => {
    const dark = [
      BLUE,
      ORANGE,
      INK,
      GREY,
      ...STATE_LOOKS.filter(({ state }) => ['stopped', 'pulled', 'starved'].includes(state)).map(
        ({ colour }) => colour,
      ),
    ];
    for (const colour of dark) expect(wcagContrast(colour, PAPER), colour).toBeGreaterThanOrEqual(3);
  });

  it('of text on paper holds in black and white too: ink is the darkest of all', () => {
    for (const colour of [BLUE, ORANGE, SKY, GREY])
      expect(wcagContrast(colour, PAPER)).toBeLessThan(wcagContrast(INK, PAPER));
  });
});

/** Least difference between colours of one chart, for any eyes; just noticeable is about 1 to 2. */
const APART = 10;

describe.each<[string, readonly string[]]>([
  ['dots: usual and chosen', [BLUE, ORANGE, PAPER]],
  ['lines: the figure, its ribbon, what is chosen, marked levels', [BLUE, SKY, ORANGE, INK, PAPER]],
  ['parts of the spills', [...THREE_PARTS, PAPER]],
  ['states of a timeline', [...STATE_LOOKS.map(({ colour }) => colour), PAPER]],
  ['places of the balls', Object.values(PLACE_COLOURS)],
])('colours of one chart (%s)', (_, colours) => {
  it.each(EYES)('differ for %s', (__, seen) => {
    const pairs = colours.flatMap((one, i) => colours.slice(i + 1).map((other) => [one, other] as const));
    const least = pairs
      .map(([one, other]) => ({ pair: `${one} ${other}`, apart: difference(seen(one), seen(other)) }))
      .toSorted((a, b) => a.apart - b.apart)[0];
    expect(least?.apart, least?.pair).toBeGreaterThan(APART);
  });
});
