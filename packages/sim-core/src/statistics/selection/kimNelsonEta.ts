import { requireParameter } from '../../errors/index.js';
import { requireChance, requireCount } from '../requireNumbers.js';

/**
 * Constant eta of the fully sequential selection of Kim & Nelson (2001, ACM Transactions on Modeling and Computer
 * Simulation 11, 251-273), with c = 1: eta = ((2 alpha / (k - 1))^(-2 / (n0 - 1)) - 1) / 2. The procedure uses it as
 * h^2 = 2 eta (n0 - 1).
 *
 * @param k systems, from 2
 * @param n0 replications of each before the first look, from 2
 * @param alpha chance to select a wrong one, above 0 and below (k - 1) / k, that of drawing lots
 * @throws ParameterError when a number is out of range
 * @example
 * kimNelsonEta(5, 10, 0.05).toFixed(4) // => '0.6350'
 */
export function kimNelsonEta(k: number, n0: number, alpha: number): number {
  requireCount(k, 2, 'kimNelsonEta', 'k');
  requireCount(n0, 2, 'kimNelsonEta', 'n0');
  requireChance(alpha, 'kimNelsonEta', 'alpha');
  requireParameter(
    alpha < (k - 1) / k && 2 * alpha < k - 1,
    'kimNelsonEta',
    'alpha',
    alpha,
    `below ${Math.min((k - 1) / 2, (k - 1) / k)}`,
  );
  return (((2 * alpha) / (k - 1)) ** (-2 / (n0 - 1)) - 1) / 2;
}
