import { rmSync } from "node:fs";

const unfinished = new Set<string>();
let listening = false;

const SIGNALS = { SIGINT: 2, SIGTERM: 15, SIGHUP: 1 } as const;

function removeAll(): void {
  for (const path of unfinished) removeIfThere(path);
}

/** Clearing up after a failure must not hide what failed. */
export function removeIfThere(path: string): void {
  try {
    rmSync(path, { recursive: true, force: true });
  } catch {
    // What cannot be removed was mostly never made: its parent is no folder, or may not be written.
  }
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
