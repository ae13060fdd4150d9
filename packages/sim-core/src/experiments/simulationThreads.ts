/** What all worker threads of this package run. In the bundle, too, it stands beside what asks for it. */
export const SIMULATION_WORKER = new URL('./simulationWorker.js', import.meta.url);
