import { rmSync } from "node:fs";

const unfinished = new Set<string>();
let listening = false;

const SIGNALS = { SIGINT: 2, SIGTERM: 15, SIGHUP: 1 } as const;

function removeAll(): void {
  for (const path of unfinished) rmSync(path, { recursive: true, force: true });
}

/**
 * Removes a half-made file or folder if the run is stopped before it is done.
 * @returns call it once the path is whole or gone
 */
export function removeOnExit(path: string): () => void {
  if (!listening) {
    listening = true;
    process.once("exit", removeAll);
    for (const [signal, number] of Object.entries(SIGNALS)) {
      process.once(signal, () => {
        removeAll();
        process.exit(128 + number);
      });
    }
  }
  unfinished.add(path);
  return () => unfinished.delete(path);
}
