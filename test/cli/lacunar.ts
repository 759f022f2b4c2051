import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll } from "vitest";
import { BASE_PLAN } from "../plan/testPlan.ts";

export const BIN = fileURLToPath(new URL("../../dist/lacunar.cjs", import.meta.url));

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs the bundled command line. */
export function lacunar(
  args: readonly string[],
  options: { cwd?: string; input?: string; env?: Record<string, string> } = {},
): Ran {
  const { status, stdout, stderr } = spawnSync(process.execPath, [BIN, ...args], {
    cwd: options.cwd,
    input: options.input ?? "",
    env: { ...process.env, ...options.env },
    encoding: "utf8",
    maxBuffer: 2 ** 28,
  });
  return { code: status, out: stdout, err: stderr };
}

/** A folder that goes when the tests of the file are done. */
export function scratch(): string {
  const folder = mkdtempSync(join(tmpdir(), "lacunar-"));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

export function writePlan(folder: string, name: string, changes: Record<string, unknown> = {}): string {
  const path = join(folder, name);
  writeFileSync(path, JSON.stringify({ ...BASE_PLAN, ...changes }));
  return path;
}
