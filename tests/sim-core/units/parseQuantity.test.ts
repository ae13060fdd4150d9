import { describe, expect, it } from 'vitest';
import {
  type Dimension,
  formatClock,
  formatNumber,
  formatSeconds,
  parseClock,
  parseQuantity,
} from '../../../packages/sim-core/src/index.js';

describe('parseQuantity', () => {
  it.each<[unknown, Dimension, number]>([
    ['3.6 s', 'duration', 3.6],
    ['3.6s', 'duration', 3.6],
    ['250 ms', 'duration', 0.25],
    ['12 min', 'duration', 720],
    ['1 h 30 min', 'duration', 5400],
    ['1h30min', 'duration', 5400],
    ['1 d 2 h 3 min 4 s 5 ms', 'duration', 93_784.005],
    ['-3 s', 'duration', -3],
    ['.5 s', 'duration', 0.5],
    ['1e3 s', 'duration', 1000],
    ['1 bps', 'rate', 1],
    ['30 balls/min', 'rate', 0.5],
    ['64 mm', 'length', 64],
    ['6.4 cm', 'length', 64],
    // A stud is 8 mm, a brick 9.6 mm: common practice, no source.
    ['8 studs', 'length', 64],
    ['10 bricks', 'length', 96],
    ['7 %', 'share', 0.07],
    [0.2, 'share', 0.2],
    ['0.2', 'share', 0.2],
    ['150 balls', 'balls', 150],
    [150, 'balls', 150],
  ])('reads %j as a %s of %d', (text, dimension, value) => {
    expect(parseQuantity(text, dimension)).toEqual({ ok: true, value });
  });

  it.each<[unknown, Dimension]>([
    ['', 'duration'],
    [' ', 'duration'],
    ['s', 'duration'],
    ['12', 'duration'],
    [12, 'duration'],
    ['3 s 5 s', 'duration'],
    ['30 min 1 h', 'duration'],
    ['1 h -30 min', 'duration'],
    ['1..2 s', 'duration'],
    ['1-2 s', 'duration'],
    ['12:30', 'duration'],
    ['3.6 s extra', 'duration'],
    ['1 constructor', 'duration'],
    ['NaN s', 'duration'],
    ['Infinity s', 'duration'],
    ['0x10 s', 'duration'],
    ['1 bps 2 bps', 'rate'],
    [NaN, 'share'],
    [Infinity, 'balls'],
    [null, 'balls'],
    [true, 'share'],
    ['5 % 3 %', 'share'],
  ])('refuses %j as a %s', (text, dimension) => {
    expect(parseQuantity(text, dimension).ok).toBe(false);
  });
});

describe('format', () => {
  it('writes numbers with the digits that matter', () => {
    expect([0.98765, 1234.5, 0, 12, 0.000012, 99.96, -0.5].map((x) => formatNumber(x))).toEqual([
      '0.988',
      '1235',
      '0',
      '12',
      '0.000012',
      '100',
      '-0.5',
    ]);
    expect([NaN, Infinity].map((x) => formatNumber(x))).toEqual(['-', 'unlimited']);
  });

  it('writes times in the units people say', () => {
    expect([0.5, 59.97, 60, 3599.6, 7261, 90_061, -30].map((x) => formatSeconds(x))).toEqual([
      '0.5 s',
      '1 min',
      '1 min',
      '1 h',
      '2 h 1 min',
      '25 h 1 min',
      '-30 s',
    ]);
  });

  it('writes and reads times of day', () => {
    expect([36_300, 86_400 + 60].map(formatClock)).toEqual(['10:05', '00:01 (+1 d)']);
    expect(['9:30', '23:59', '24:00', '9:60', 'noon'].map(parseClock)).toEqual([
      34_200,
      86_340,
      undefined,
      undefined,
      undefined,
    ]);
  });
});
