import { deserialize, serialize } from 'node:v8';

/** Data that many tasks have in common: packed once, and read by each thread where it lies. */
export interface Parcel {
  readonly number: number;
  readonly bytes: Uint8Array;
}

let last = 0;

/** Packs data that can be sent between threads. */
export function pack(data: unknown): Parcel {
  const packed = serialize(data);
  const bytes = new Uint8Array(new SharedArrayBuffer(packed.length));
  bytes.set(packed);
  return { number: ++last, bytes };
}

/** The same parcel where the data are still what it holds, and a new one where they have changed. */
export function packAgain(parcel: Parcel | undefined, data: unknown): Parcel {
  return parcel !== undefined && serialize(data).equals(parcel.bytes) ? parcel : pack(data);
}

/** What a thread has made of the parcels it was sent last, so that each is unpacked once. */
export class Unpacked<T> {
  private readonly most: number;
  private readonly make: (data: unknown) => T;
  private readonly made = new Map<number, T>();

  /**
   * @param make what is to be made of the data of a parcel
   * @param most how many are kept
   */
  constructor(make: (data: unknown) => T, most: number) {
    this.make = make;
    this.most = most;
  }

  /** Forgets all. */
  clear(): void {
    this.made.clear();
  }

  get({ number, bytes }: Parcel): T {
    const known = this.made.get(number);
    const value = known ?? this.make(deserialize(bytes));
    // Whoever was asked for last stands at the end.
    this.made.delete(number);
    this.made.set(number, value);
    for (const [oldest] of this.made) {
      if (this.made.size <= this.most) break;
      this.made.delete(oldest);
    }
    return value;
  }
}
