/** A small generator of its own (a counter whose bits are stirred, 32 bits), so that nothing is shared with the simulator. */
export class Dice {
  private state: number;

  constructor(seed: number) {
    this.state = seed >>> 0;
    for (let i = 0; i < 8; i++) this.uniform();
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
    this.state = (this.state + 0x6d2b79f5) >>> 0;
    let word = this.state;
    word = Math.imul(word ^ (word >>> 15), word | 1);
    word ^= word + Math.imul(word ^ (word >>> 7), word | 61);
    return (word ^ (word >>> 14)) >>> 0;
  }
}
