declare module 'seedrandom/lib/alea.js' {
  interface AleaState {
    readonly c: number;
    readonly s0: number;
    readonly s1: number;
    readonly s2: number;
  }
  /** Seeds a generator from text; with `{ state: true }` its state can be read. */
  function alea(seed: string, options: { readonly state: true }): { double(): number; state(): AleaState };
  export default alea;
}
