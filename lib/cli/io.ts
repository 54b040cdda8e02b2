/** What a command may touch of the world besides the files it is told to read. */
export interface CommandIo {
  /** The answer. */
  readonly stdout: (text: string) => void;
  /** Everything about the answer: errors, notes. */
  readonly stderr: (text: string) => void;
  /** stderr where it is a terminal, for what is only for the moment; nothing otherwise. */
  readonly terminal?: (text: string) => void;
  /** Where the user stands; relative paths start here. */
  readonly directory: string;
}

export const EXIT_OK = 0;
/** What was to be checked was read, and does not stand. */
export const EXIT_MISMATCH = 1;
/** The input or the command was refused; nothing was written to stdout. */
export const EXIT_REFUSED = 2;
