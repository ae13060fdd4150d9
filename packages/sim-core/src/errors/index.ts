export { InputError } from './inputError.js';
export { LimitError } from './limitError.js';
export { ParameterError, requireParameter, showValue } from './parameterError.js';
export { Description, describeProblem, type Problem, type ProblemCode } from './problem.js';
export { SimulationError } from './simulationError.js';
