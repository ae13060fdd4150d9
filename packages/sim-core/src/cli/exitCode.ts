/** Exit codes of the command. */
export const EXIT = {
  ok: 0,
  /** Something failed while running; what was finished has been printed or written. */
  failed: 1,
  /** What was asked for or written cannot be used. */
  unusable: 2,
  /** Stopped from the keyboard (128 + SIGINT). */
  interrupted: 130,
} as const;

export type ExitCode = (typeof EXIT)[keyof typeof EXIT];
