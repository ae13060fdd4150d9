import * as simCore from '@lapwright/sim-core';
import * as simNotebooks from '@lapwright/sim-notebooks';
import { expect, it } from 'vitest';

// A change of these lists is a change for everybody who uses the packages: it belongs into the release notes.
it('sim-core exports these names', () => {
  expect(Object.keys(simCore).toSorted()).toMatchSnapshot();
});

it('sim-notebooks exports these names', () => {
  expect(Object.keys(simNotebooks).toSorted()).toMatchSnapshot();
});
