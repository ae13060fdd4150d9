import alea from 'seedrandom/lib/alea.js';

/** The generator behind every stream, recorded in every result. */
export const GENERATOR = 'alea (seedrandom 3.0.5), 53 bits';

const TWO_POW_MINUS_32 = 2.3283064365386963e-10;
const TWO_POW_MINUS_53 = 1.1102230246251565e-16;

/**
 * Many independent streams of uniform random numbers, by number.
 *
 * Each is seeded by seedrandom's alea from its key, and yields exactly the numbers that alea's `double()` would
 * (a test compares them). The state is kept in one typed array and stepped here, because a call through two closures
 * for every number costs more than the number; and 0 is replaced by 2^-54, so that every logarithm of a draw is finite.
 *
 * Multiply-with-carry lag-3 generator by J. Baagoe (2010): t = 2091639 s0 + c 2^-32; c = floor(t); s2' = t - c.
 */
export class StreamBank {
  private readonly state: Float64Array;
  private readonly one: Float64Array = new Float64Array(1);

  /** @param streams how many streams there are, numbered from 0; each must be opened before it is used */
  constructor(streams: number) {
    this.state = new Float64Array(4 * streams).fill(NaN);
  }

  /** Seeds stream `index` from its key; seeding again starts it over. */
  open(index: number, key: string): void {
    const { s0, s1, s2, c } = alea(key, { state: true }).state();
    this.state.set([s0, s1, s2, c], 4 * index);
  }

  /** The next number of stream `index`: above 0 and below 1. */
  next(index: number): number {
    this.fill(index, this.one, 0, 1);
    return this.one[0];
  }

  /** The next numbers of stream `index`, into the places `from` to before `to` of an array. */
  fill(index: number, into: Float64Array, from: number, to: number): void {
    const i = 4 * index;
    let s0 = this.state[i];
    let s1 = this.state[i + 1];
    let s2 = this.state[i + 2];
    let carry = this.state[i + 3];
    for (let at = from; at < to; at++) {
      // Two steps of the generator for one number of 53 bits.
      const t = 2091639 * s0 + carry * TWO_POW_MINUS_32;
      const c = t | 0;
      const first = t - c;
      const t2 = 2091639 * s1 + c * TWO_POW_MINUS_32;
      carry = t2 | 0;
      const second = t2 - carry;
      s0 = s2;
      s1 = first;
      s2 = second;
      const u = first + ((second * 0x200000) | 0) * TWO_POW_MINUS_53;
      into[at] = u === 0 ? 0.5 * TWO_POW_MINUS_53 : u;
    }
    this.state[i] = s0;
    this.state[i + 1] = s1;
    this.state[i + 2] = s2;
    this.state[i + 3] = carry;
  }
}
