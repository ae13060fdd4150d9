declare module 'jstat' {
  interface JstatDistribution {
    cdf(x: number, ...parameters: number[]): number;
    pdf(x: number, ...parameters: number[]): number;
    inv(p: number, ...parameters: number[]): number;
    mean(...parameters: number[]): number;
    variance(...parameters: number[]): number;
  }
  const jstat: Record<
    | 'lognormal'
    | 'gamma'
    | 'weibull'
    | 'triangular'
    | 'exponential'
    | 'uniform'
    | 'normal'
    | 'studentt'
    | 'beta',
    JstatDistribution
  >;
  export default jstat;
}
