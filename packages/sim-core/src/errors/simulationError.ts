/**
 * The simulation itself went wrong: a rule that must always hold did not (balls appeared or vanished, the clock
 * went back), or a worker died. It is a fault of the program or the machine, never of the scenario.
 *
 * The command line keeps what was finished, prints the message and exits with code 1.
 *
 * @example
 * new SimulationError('719 balls in all places, 720 were put in', { replication: 3 }).message // => 'replication 3: 719 balls in all places, 720 were put in'
 */
export class SimulationError extends Error {
  override readonly name = 'SimulationError';
  readonly replication: number | undefined;

  constructor(message: string, options: { readonly replication?: number } = {}) {
    super(options.replication === undefined ? message : `replication ${options.replication}: ${message}`);
    this.replication = options.replication;
  }
}
