/** Whether GNU parallel is there. */
export function findParallel(): boolean;
