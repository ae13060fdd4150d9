#!/usr/bin/env node
/* npm run notebooks: opens the notebooks in Jupyter; see src/jupyter. */
import { openNotebooks } from '../dist/jupyter/index.js';

process.exitCode = await openNotebooks(process.argv.slice(2));
