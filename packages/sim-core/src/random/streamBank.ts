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
    const s = this.state;
    const i = 4 * index;
    const t = 2091639 * s[i] + s[i + 3] * TWO_POW_MINUS_32;
    const c = t | 0;
    const first = t - c;
    const t2 = 2091639 * s[i + 1] + c * TWO_POW_MINUS_32;
    const c2 = t2 | 0;
    const second = t2 - c2;
    s[i] = s[i + 2];
    s[i + 1] = first;
    s[i + 2] = second;
    s[i + 3] = c2;
    const u = first + ((second * 0x200000) | 0) * TWO_POW_MINUS_53;
    return u === 0 ? 0.5 * TWO_POW_MINUS_53 : u;
  }
}
