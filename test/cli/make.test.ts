import { spawn, spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import {
  existsSync,
  lstatSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import sharp from "sharp";
import { describe, expect, it } from "vitest";
import { BASE_PLAN } from "../plan/testPlan.ts";
import { BIN, lacunar, scratch, writePlan } from "./lacunar.ts";

const folder = scratch();
const plan = writePlan(folder, "chapel.json", {
  panels: { columns: 2, rows: 2 },
  fabric: { thickness: 1 },
  fibre: { ...BASE_PLAN.fibre, sharing: "ceiling" },
});

const filesIn = (path: string): string[] =>
  readdirSync(path, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath ?? entry.path, entry.name).slice(path.length + 1))
    .sort();
const contentOf = (path: string) =>
  Object.fromEntries(
    filesIn(path).map((file) => [
      file,
      createHash("sha256")
        .update(readFileSync(join(path, file)))
        .digest("hex"),
    ]),
  );
const csv = (path: string) => {
  const [header, ...lines] = readFileSync(path, "utf8")
    .trimEnd()
    .split("\r\n")
    .map((line) => line.split(","));
  return lines.map((cells) => Object.fromEntries(header!.map((key, i) => [key, cells[i]!])));
};

describe("make", () => {
  const out = join(folder, "made");
  it("writes all files, each with its checksum in the manifest, and nothing beside", () => {
    expect(lacunar(["make", plan, "-o", out])).toMatchObject({ code: 0, out: "" });
    const panels = ["A1", "A2", "B1", "B2"].flatMap((id) => [
      `marking/${id}.png`,
      `panels/${id}/back.svg`,
      `panels/${id}/face.svg`,
      `panels/${id}/holes-back.csv`,
      `panels/${id}/holes-face.csv`,
      `panels/${id}/panel.dxf`,
      `panels/${id}/drill.nc`,
      `panels/${id}/drill-pilot.nc`,
      `panels/${id}/drill.xnc`,
      `panels/${id}/template-back.pdf`,
      `panels/${id}/template-face.pdf`,
    ]);
    expect(filesIn(out)).toEqual(
      [
        "ceiling.svg",
        "labels.pdf",
        "manifest.json",
        ...panels,
        "plan.yaml",
        "preview-labelled.png",
        "preview.png",
        "sample.dxf",
        "sample.pdf",
        "schedule.csv",
        "schedule.json",
      ].sort(),
    );
    const manifest = JSON.parse(readFileSync(join(out, "manifest.json"), "utf8"));
    const { "manifest.json": _, ...rest } = contentOf(out);
    expect(manifest.files).toEqual(rest);
    expect(manifest).toMatchObject({ lacunar: expect.any(String), data: expect.any(String) });
    expect(readdirSync(folder).filter((name) => name.startsWith("."))).toEqual([]);
  });

  it("draws the same ceiling.svg that preview --drawing writes, which also makes an A3 picture of it", async () => {
    const drawing = join(folder, "drawing.svg");
    expect(lacunar(["preview", plan, "-o", drawing, "--drawing"])).toMatchObject({ code: 0, out: "" });
    expect(readFileSync(drawing, "utf8")).toBe(readFileSync(join(out, "ceiling.svg"), "utf8"));
    for (const [name, args, widthPx] of [
      ["drawing.png", [], 4961], // 420 mm at 300 dots an inch
      ["drawing.webp", ["--width", "840"], 840],
    ] as const) {
      const picture = join(folder, name);
      expect(lacunar(["preview", plan, "-o", picture, "--drawing", ...args]).code).toBe(0);
      const { width, height } = await sharp(picture).metadata();
      expect([width, height]).toEqual([widthPx, Math.round((widthPx * 297) / 420)]);
      // Ours, so that a later run may replace it.
      expect(lacunar(["preview", plan, "-o", picture, "--drawing", ...args]).code).toBe(0);
    }
  });

  it("adds plain moves for controllers without cycles, and refuses a dialect that it does not know", () => {
    const plain = join(folder, "plain");
    expect(lacunar(["make", plan, "-o", plain, "--dialect", "plain"]).code).toBe(0);
    expect(filesIn(plain)).toContain("panels/A1/drill-0.60mm.nc");
    expect(filesIn(plain)).toContain("panels/A1/drill.nc");
    expect(lacunar(["make", plan, "-o", plain, "--dialect", "baroque"])).toMatchObject({
      code: 2,
      err: expect.stringContaining("rs274, plain"),
    });
  });

  it("gives the same bytes for the same plan, and for the plan it wrote out", () => {
    lacunar(["make", plan, "-o", join(folder, "again")]);
    expect(contentOf(join(folder, "again"))).toEqual(contentOf(out));
    lacunar(["make", join(out, "plan.yaml"), "-o", join(folder, "replayed")]);
    expect(contentOf(join(folder, "replayed"))).toEqual(contentOf(out));
  });

  it("says the same in every list as in schedule.json, cell by cell", () => {
    const { holes } = JSON.parse(readFileSync(join(out, "schedule.json"), "utf8"));
    const camel = (column: string) =>
      column.replace(/_([a-z])/g, (_, letter: string) => letter.toUpperCase());
    const shown = (value: unknown) =>
      Array.isArray(value) ? value.join(" ") : value === null ? "" : String(value);
    const same = (cell: string, value: unknown) =>
      typeof value === "number" ? Number(cell) === value : cell === shown(value);
    const rows = csv(join(out, "schedule.csv"));
    expect(rows).toHaveLength(holes.length);
    for (const [i, row] of rows.entries()) {
      for (const [column, cell] of Object.entries(row))
        expect([column, cell, same(cell!, holes[i][camel(column)])]).toEqual([column, cell, true]);
    }
    for (const hole of holes) expect(hole.bitMm).toBeGreaterThan(hole.diameterMm);
    for (const { id } of JSON.parse(readFileSync(join(out, "schedule.json"), "utf8")).panels) {
      const its = holes.filter((hole: { panel: string }) => hole.panel === id);
      for (const [i, row] of csv(join(out, "panels", id, "holes-face.csv")).entries()) {
        for (const [column, value] of [
          ["hole", its[i].hole],
          ["x_mm", its[i].xMm],
          ["y_mm", its[i].yMm],
          ["diameter_mm", its[i].diameterMm],
          ["bit_mm", its[i].bitMm],
          ["name", its[i].name],
        ] as const) {
          expect(same(row[column]!, value)).toBe(true);
        }
      }
    }
  });

  it("FACE and BACK are the same board turned over about its vertical axis", () => {
    const schedule = JSON.parse(readFileSync(join(out, "schedule.json"), "utf8"));
    for (const panel of schedule.panels) {
      const face = csv(join(out, "panels", panel.id, "holes-face.csv"));
      const back = csv(join(out, "panels", panel.id, "holes-back.csv"));
      expect(face).toHaveLength(panel.holeCount);
      for (const [i, hole] of face.entries()) {
        expect(back[i]!.hole).toBe(hole.hole);
        expect(Number(hole.x_mm) + Number(back[i]!.x_mm)).toBeCloseTo(panel.widthMm, 2);
        expect(back[i]!.y_mm).toBe(hole.y_mm);
        // The reference edge is the face's left edge, in both lists.
        expect(hole.from_reference_mm).toBe(hole.x_mm);
        expect(back[i]!.from_reference_mm).toBe(hole.x_mm);
      }
    }
  });

  it("replaces a folder of its own, and no other", () => {
    expect(lacunar(["make", plan, "-o", out]).code).toBe(0);
    const notes = join(out, "notes.txt");
    writeFileSync(notes, "mine");
    expect(lacunar(["make", plan, "-o", out])).toMatchObject({
      code: 2,
      err: expect.stringContaining("notes.txt is not of Lacunar's making"),
    });
    expect(existsSync(notes)).toBe(true);
    rmSync(notes);
    writeFileSync(join(out, "plan.yaml"), "changed");
    expect(lacunar(["make", plan, "-o", out])).toMatchObject({
      code: 2,
      err: expect.stringContaining("plan.yaml was changed"),
    });
    expect(lacunar(["make", plan, "-o", out, "--force"]).code).toBe(0);
    expect(readFileSync(join(out, "plan.yaml"), "utf8")).not.toBe("changed");
    const foreign = join(folder, "foreign");
    spawnSync("mkdir", [foreign]);
    expect(lacunar(["make", plan, "-o", foreign]).code).toBe(0); // empty
    rmSync(join(foreign, "manifest.json"));
    expect(lacunar(["make", plan, "-o", foreign])).toMatchObject({
      code: 2,
      err: expect.stringContaining("Lacunar did not make it"),
    });
  });

  it("on a disk that takes no more leaves things as they were", () => {
    // A limit of 16 kB a file stands for a full disk: writing fails in the middle of the set.
    const target = join(folder, "full");
    const ran = spawnSync(
      "bash",
      ["-c", `ulimit -f 16; exec "${process.execPath}" "${BIN}" make "${plan}" -o "${target}"`],
      { encoding: "utf8" },
    );
    expect(ran.stderr).toContain("too large for this disk");
    expect(ran.status).toBe(2);
    expect(existsSync(target)).toBe(false);
    expect(readdirSync(folder).filter((name) => name.startsWith("."))).toEqual([]);
  });

  it("interrupted at any moment leaves a whole folder or none, and no litter", async () => {
    const target = join(folder, "stopped");
    for (const afterMs of [50, 200, 400, 600, 800]) {
      const child = spawn(process.execPath, [BIN, "make", plan, "-o", target], { stdio: "ignore" });
      const ended = new Promise((resolve) => child.once("exit", resolve));
      setTimeout(() => child.kill("SIGTERM"), afterMs);
      await ended;
      if (existsSync(target)) {
        expect(contentOf(target)).toEqual(contentOf(join(folder, "again")));
        rmSync(target, { recursive: true });
      }
      expect(readdirSync(folder).filter((name) => name.startsWith("."))).toEqual([]);
    }
  });
});

describe("make, where something could be lost", () => {
  it("deletes neither the plan, nor the folder one works in, nor a file, not even with --force", () => {
    const work = join(folder, "work");
    spawnSync("mkdir", [work]);
    const mine = writePlan(work, "mine.json");
    writeFileSync(join(work, "notes.txt"), "mine");
    const refused = (args: string[], cwd: string, words: string) =>
      expect(lacunar(["make", ...args, "--force"], { cwd })).toMatchObject({
        code: 2,
        err: expect.stringContaining(words),
      });
    refused([mine, "-o", work], folder, "would delete it");
    refused([plan, "-o", "."], work, "you are in that folder");
    refused([plan, "-o", ".."], work, "you are in that folder");
    refused([plan, "-o", "/"], work, "you are in that folder");
    refused([plan, "-o", ""], work, "the name is empty");
    refused([mine, "-o", join(work, "notes.txt")], folder, "a file of that name");
    expect(readdirSync(work).sort()).toEqual(["mine.json", "notes.txt"]);
  });

  it("follows a link instead of replacing it, and writes to a device", () => {
    const target = join(folder, "target.csv");
    const link = join(folder, "link.csv");
    writeFileSync(target, "old");
    symlinkSync(target, link);
    expect(lacunar(["holes", plan, "-o", link, "--force"]).code).toBe(0);
    expect(lstatSync(link).isSymbolicLink()).toBe(true);
    expect(readFileSync(target, "utf8")).toContain("hole,panel");
    expect(lacunar(["holes", plan, "-o", "/dev/null"]).code).toBe(0);
    expect(lstatSync("/dev/null").isCharacterDevice()).toBe(true);
  });

  it("goes on when nobody reads its words, and says in words when nobody takes its data", () => {
    const target = join(folder, "unheard");
    const run = (tail: string) =>
      spawnSync("bash", ["-c", `"${process.execPath}" "${BIN}" ${tail}`], { encoding: "utf8" });
    expect(run(`make "${plan}" -o "${target}" 2>/dev/full`).status).toBe(0);
    expect(existsSync(join(target, "manifest.json"))).toBe(true);
    const full = run(`stars "${plan}" >/dev/full`);
    expect(full.status).toBe(2);
    expect(full.stderr).toContain("standard output: the disk is full");
  });
});

describe("preview", () => {
  it.each([
    ["png", (bytes: Buffer) => bytes.subarray(1, 4).toString() === "PNG"],
    ["webp", (bytes: Buffer) => bytes.subarray(8, 12).toString() === "WEBP"],
    ["avif", (bytes: Buffer) => bytes.subarray(4, 12).toString() === "ftypavif"],
    ["svg", (bytes: Buffer) => bytes.toString().startsWith("<svg")],
  ])("writes %s by its extension, and replaces its own", (format, isFormat) => {
    const path = join(folder, `sky.${format}`);
    expect(lacunar(["preview", plan, "-o", path, "--width", "320"]).code).toBe(0);
    expect(isFormat(readFileSync(path))).toBe(true);
    expect(lacunar(["preview", plan, "-o", path, "--width", "400", "--labels", "--tint"])).toMatchObject({
      code: 0,
      err: expect.stringContaining("coloured sources"),
    });
  });

  it.each(["png", "webp", "avif"])("draws figures and boundaries into %s when asked", (format) => {
    const [plain, lines] = [[], ["--figures", "--boundaries"]].map((options, i) => {
      const path = join(folder, `lines-${i}.${format}`);
      expect(lacunar(["preview", plan, "-o", path, "--width", "400", ...options])).toMatchObject({ code: 0 });
      return readFileSync(path);
    });
    expect(lines!.equals(plain!)).toBe(false);
  });

  it("draws figures without boundaries, boundaries without figures, and neither unless asked", () => {
    const path = join(folder, "lines.svg");
    const ids = (...options: string[]) => {
      expect(lacunar(["preview", plan, "-o", path, ...options])).toMatchObject({ code: 0 });
      return [...readFileSync(path, "utf8").matchAll(/<(?:path|g) id="([\w-]+)"/g)].map(([, id]) => id);
    };
    expect(ids()).toEqual([]);
    expect(ids("--figures")).toEqual(["figures"]);
    expect(ids("--boundaries")).toEqual(["boundaries"]);
    expect(ids("--figures", "--labels")).toEqual(
      expect.arrayContaining(["figures", "line-breaks", "constellation"]),
    );
  });
});
