/**
 * Number of the rules and draws that shows are simulated by. Raised whenever the same scenario, seed and replication may
 * give another show than before, so that a journal never mixes the two; `tests/reference/modelRevision.test.ts` notices.
 */
export const MODEL_REVISION = 1;
