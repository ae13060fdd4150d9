export { benchNext, type BenchGain, type BenchNext, type DrawnModule } from './benchNext.js';
export { countedModules, countedSeconds } from './countedModules.js';
export { type JudgedInDoubt, judgeInDoubt, type RuleDoubt } from './judgeInDoubt.js';
export { type LookedInDoubt, lookInDoubt, type LookInDoubtOptions } from './lookInDoubt.js';
