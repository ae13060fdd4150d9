import { scenarioSpec } from './scenarioSpec.js';
import { timeStudy } from './timeStudy.js';

/* The first study of a process: threads start, and everything is compiled while it runs. Prints wall and processor seconds. */
const [, , name = '', workers = ''] = process.argv;
const { wall, cpu } = await timeStudy(scenarioSpec(name), Number(workers));
process.stdout.write(`${wall} ${cpu}\n`);
