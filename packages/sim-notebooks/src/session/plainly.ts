import { InputError, LimitError, ParameterError, SimulationError } from '@lapwright/sim-core';
import { inText } from './inText.js';
import { Stopped } from './stopped.js';

/** Errors that are for the person at the keyboard: their message says it all. */
const FOR_PEOPLE = [InputError, LimitError, ParameterError, SimulationError, Stopped];

/**
 * Does the work of a verb. An error whose message says what is wrong, where, and what to write instead is shown as that
 * message, as on the command line: a cell would print the way through the program otherwise.
 */
export function plainly<T>(work: () => T): T {
  try {
    const result = work();
    if (result instanceof Promise)
      return result.catch((error: unknown) => {
        throw readable(error);
      }) as T;
    return result;
  } catch (error) {
    throw readable(error);
  }
}

function readable(error: unknown): unknown {
  if (error instanceof Error && FOR_PEOPLE.some((kind) => error instanceof kind))
    inText(error, () => error.message);
  return error;
}
