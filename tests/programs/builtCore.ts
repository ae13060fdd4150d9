import { createRequire } from 'node:module';
import type * as simCore from '@lapwright/sim-core';
import type * as programs from './importBuilt.cjs';

const { importBuilt } = createRequire(import.meta.url)('./importBuilt.cjs') as typeof programs;

/** The built package, imported as Node does: for tests of commands, which want little of it. */
export const core = (await importBuilt(import.meta.resolve('@lapwright/sim-core'))) as typeof simCore;
