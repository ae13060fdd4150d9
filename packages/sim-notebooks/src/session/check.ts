import { checkText, roughCut } from '@lapwright/sim-core';
import { output } from '../display/index.js';
import { asLoop, type LoopSource } from './load.js';
import { plainly } from './plainly.js';

/**
 * Says what can be reckoned of a loop without simulating: how much it can pass, which module is slowest, how long a lap
 * takes, how soon a basket floods when its module stops.
 *
 * @param options.formulas also shows the formula behind each figure @default false
 * @throws InputError when the scenario cannot be used
 * @example
 * check('scenarios/chain-of-five.yaml') // => undefined
 */
export function check(loop: LoopSource, options: { readonly formulas?: boolean } = {}): void {
  plainly(() => {
    const { scenario } = asLoop(loop);
    const text = checkText(scenario, roughCut(scenario.spec), options.formulas ?? false, {
      formulas: 'check(loop, { formulas: true })',
      run: 'run(loop)',
    });
    output({ 'text/plain': text.trimEnd() });
  });
}
