import { asInputError } from "./writeFile.ts";

/** Words for the person, on stderr; data alone goes to stdout. */
export interface Terminal {
  say(text: string): void;
  warn(text: string): void;
  /** Tells on a terminal what is being done, once it has taken over a second; hands back what `work` gives. */
  progress<T>(doing: string, work: () => Promise<T>): Promise<T>;
}

const SLOW_MS = 1000;

export function makeTerminal(quiet: boolean): Terminal {
  const isTerminal = process.stderr.isTTY === true;
  const colour = isTerminal && !process.env.NO_COLOR && process.env.TERM !== "dumb";
  const amber = (text: string) => (colour ? `\u001b[33m${text}\u001b[39m` : text);
  const write = (text: string) => void process.stderr.write(`${text}\n`);
  return {
    say: (text) => {
      if (!quiet) write(text);
    },
    warn: (text) => {
      if (!quiet) write(`${amber("warning:")} ${text}`);
    },
    async progress(doing, work) {
      const timer = isTerminal && !quiet ? setTimeout(() => write(`${doing} …`), SLOW_MS) : undefined;
      try {
        return await work();
      } finally {
        clearTimeout(timer);
      }
    },
  };
}

/** Writes data to stdout and waits until it is taken. A reader that has seen enough (`| head`) is no fault. */
export function writeStdout(data: string | Uint8Array): Promise<void> {
  return new Promise((resolve, reject) => {
    process.stdout.once("error", (error: NodeJS.ErrnoException) =>
      error.code === "EPIPE" ? resolve() : reject(asInputError(error, "standard output")),
    );
    process.stdout.write(data, (error) => {
      if (!error || (error as NodeJS.ErrnoException).code === "EPIPE") resolve();
      else reject(asInputError(error, "standard output"));
    });
  });
}
