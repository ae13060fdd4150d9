import { describe, expect, it } from 'vitest';
import { pack, packAgain, Unpacked } from '../../../packages/sim-core/src/threads/index.js';

const DATA = {
  text: 'Kübel',
  numbers: [0.1, -0, NaN, Infinity, -Infinity, 2 ** 53 - 1],
  nothing: undefined,
  levels: Float64Array.of(1.5, NaN),
};

describe('a parcel', () => {
  it('holds what was packed, to the last bit', () => {
    const unpacked = new Unpacked((data) => data, 1);
    expect(unpacked.get(pack(DATA))).toStrictEqual(DATA);
  });

  it('is packed as it is now: what changes later is not in it', () => {
    const data = { balls: 60 };
    const parcel = pack(data);
    data.balls = 61;
    expect(new Unpacked((unpacked) => unpacked, 1).get(parcel)).toEqual({ balls: 60 });
  });

  it('serves again as long as the data are what it holds', () => {
    const data = { balls: 60, levels: [1, 2] };
    const parcel = packAgain(undefined, data);
    expect(packAgain(parcel, data)).toBe(parcel);
    data.levels[1] = 3;
    const next = packAgain(parcel, data);
    expect(next.number).not.toBe(parcel.number);
    expect(new Unpacked((unpacked) => unpacked, 1).get(next)).toEqual({ balls: 60, levels: [1, 3] });
  });

  it('is unpacked once, as long as it is among the last', () => {
    let made = 0;
    const unpacked = new Unpacked((data) => [data, made++], 2);
    const [a, b, c] = [pack('a'), pack('b'), pack('c')];
    expect([a, b, a, c, a].map((parcel) => unpacked.get(parcel))).toEqual([
      ['a', 0],
      ['b', 1],
      ['a', 0],
      ['c', 2],
      ['a', 0],
    ]);
    // When c came, b had not been asked for the longest.
    expect(unpacked.get(b)).toEqual(['b', 3]);
  });

  it('tells two of the same content apart', () => {
    const unpacked = new Unpacked((data) => ({ data }), 2);
    expect(unpacked.get(pack('a'))).not.toBe(unpacked.get(pack('a')));
  });
});
