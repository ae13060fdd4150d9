import { EXIT } from './exitCode.js';

const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;
/** One press of Ctrl-C may arrive twice: from the terminal, and from a program that passes it on. */
const ONE_PRESS_MS = 500;

/** A signal that Ctrl-C gives, and the closing of the terminal; a second Ctrl-C ends the program at once. */
export function interruptible(): { readonly signal: AbortSignal; end(): void } {
  const controller = new AbortController();
  let pressedAt = Infinity;
  const onSignal = (): void => {
    const now = performance.now();
    if (controller.signal.aborted && now - pressedAt > ONE_PRESS_MS) process.exit(EXIT.interrupted);
    if (!controller.signal.aborted) pressedAt = now;
    controller.abort();
  };
  for (const signal of SIGNALS) process.on(signal, onSignal);
  return {
    signal: controller.signal,
    end: () => {
      for (const signal of SIGNALS) process.off(signal, onSignal);
    },
  };
}
