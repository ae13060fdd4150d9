/**
 * A small generator of its own, so that nothing is shared with the simulator: "small fast counting", three chaotic words
 * and a counter of 32 bits each (Doty-Humphrey, PractRand, 2010).
 */
export class Dice {
  private a = 0;
  private b: number;
  private c: number;
  private counter = 1;

  constructor(seed: number) {
    this.b = seed | 0;
    this.c = Math.floor(seed / 2 ** 32) | 0;
    for (let i = 0; i < 16; i++) this.word();
  }

  /** Uniform from 0 to 1, without the ends. */
  uniform(): number {
    // 52 bits from two words, in the middle of their interval.
    const high = this.word() >>> 6;
    const low = this.word() >>> 6;
    return (high * 2 ** 26 + low + 0.5) / 2 ** 52;
  }

  chance(probability: number): boolean {
    return probability > 0 && this.uniform() < probability;
  }

  /** A whole number from `from` to `to`, both included. */
  whole(from: number, to: number): number {
    return from + Math.floor(this.uniform() * (to - from + 1));
  }

  oneOf<T>(choices: readonly T[]): T {
    return choices[this.whole(0, choices.length - 1)] as T;
  }

  private word(): number {
    const word = (this.a + this.b + this.counter) | 0;
    this.counter = (this.counter + 1) | 0;
    this.a = this.b ^ (this.b >>> 9);
    this.b = (this.c + (this.c << 3)) | 0;
    this.c = (((this.c << 21) | (this.c >>> 11)) + word) | 0;
    return word >>> 0;
  }
}
