/** A log as text, and how its bytes were read. */
export interface DecodedLog {
  readonly text: string;
  readonly encoding: 'UTF-8' | 'UTF-16' | 'Windows-1252';
  /** Whether the encoding was guessed: nothing in the file says it. */
  readonly guessed: boolean;
}

/**
 * Reads the bytes of a log as text. A byte order mark decides; without one UTF-8 if the bytes can be that; UTF-16 if every
 * other of the first bytes is zero; and the old encoding of Western Europe (Latin-1, as Windows extends it) for the rest.
 *
 * @example
 * decodeLog(Uint8Array.of(0x6d, 0xfc, 0x68, 0x6c, 0x65)) // => { text: 'm\u00fchle', encoding: 'Windows-1252', guessed: true }
 */
export function decodeLog(bytes: Uint8Array): DecodedLog {
  const [a, b] = bytes;
  if (a === 0xff && b === 0xfe) return decoded(bytes, 'utf-16le', false);
  if (a === 0xfe && b === 0xff) return decoded(bytes, 'utf-16be', false);
  if (zerosAt(bytes, 1)) return decoded(bytes, 'utf-16le', true);
  if (zerosAt(bytes, 0)) return decoded(bytes, 'utf-16be', true);
  try {
    return {
      text: new TextDecoder('utf-8', { fatal: true }).decode(bytes),
      encoding: 'UTF-8',
      guessed: false,
    };
  } catch {
    return decoded(bytes, 'windows-1252', true);
  }
}

function decoded(bytes: Uint8Array, label: string, guessed: boolean): DecodedLog {
  const encoding = label === 'windows-1252' ? 'Windows-1252' : 'UTF-16';
  return { text: new TextDecoder(label).decode(bytes), encoding, guessed };
}

/** True when the first letters have a zero as one of their two bytes, as plain letters in UTF-16 have. */
function zerosAt(bytes: Uint8Array, offset: 0 | 1): boolean {
  if (bytes.length < 8) return false;
  for (let i = 0; i < 8; i += 2) {
    if (bytes[i + offset] !== 0 || bytes[i + 1 - offset] === 0) return false;
  }
  return true;
}
