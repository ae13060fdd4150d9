/** A typed array of the state. */
type Numbers = Float64Array | Int32Array | Uint8Array | Int8Array;

/**
 * Makes one part of a state equal to another of the same build, so that from then on both go the same way.
 *
 * It goes through all fields there are, so that a new one cannot be forgotten. Objects of a class and arrays are filled
 * with the values of the other, not replaced: what is built by a constructor keeps the shape that V8 knows. Plain objects
 * and functions are data that nobody changes, and are shared.
 */
export function copyState<T extends object>(from: T, into: T): void {
  const source = from as Record<string, unknown>;
  const target = into as Record<string, unknown>;
  for (const key of Object.keys(source)) target[key] = copied(source[key], target[key]);
}

/** The value to stand in the place of `old`: `old` itself, made equal, where that can be. */
function copied(value: unknown, old: unknown): unknown {
  if (value === old || typeof value !== 'object' || value === null) return value;
  if (isNumbers(value)) {
    if (!isNumbers(old) || old.length !== value.length) return value.slice();
    old.set(value);
    return old;
  }
  if (Array.isArray(value)) {
    const list: unknown[] = Array.isArray(old) ? old : [];
    list.length = value.length;
    for (let i = 0; i < value.length; i++) list[i] = copied(value[i], list[i]);
    return list;
  }
  if (Object.getPrototypeOf(value) === Object.prototype) return value;
  if (typeof old !== 'object' || old === null) throw new Error('the two states are not of the same build');
  copyState(value, old);
  return old;
}

function isNumbers(value: unknown): value is Numbers {
  return ArrayBuffer.isView(value) && !(value instanceof DataView);
}
