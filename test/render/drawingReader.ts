/** Reads a working drawing as any program may: by ids, classes and attributes. */
export const attribute = (element: string, name: string): string =>
  new RegExp(` ${name}="([^"]*)"`).exec(element)?.[1] ?? "";

/** The group with an id, its nested groups included. */
export function group(svg: string, id: string): string {
  const start = svg.search(new RegExp(`<g [^>]*id="${id}"`));
  if (start < 0) throw new Error(`the drawing has no group ${id}`);
  return wholeGroup(svg, start);
}

/** Every group whose class it is. */
export function groupsOf(svg: string, className: string): string[] {
  return [...svg.matchAll(new RegExp(`<g class="${className}"`, "g"))].map((match) =>
    wholeGroup(svg, match.index),
  );
}

function wholeGroup(svg: string, start: number): string {
  let depth = 0;
  for (const tag of svg.slice(start).matchAll(/<(\/?)g\b[^>]*?(\/?)>/g)) {
    if (tag[2] === "/") continue;
    depth += tag[1] === "/" ? -1 : 1;
    if (depth === 0) return svg.slice(start, start + tag.index + tag[0].length);
  }
  throw new Error("a group without an end");
}

/** What text says: outlines carry it as a label. */
export const words = (svg: string): string[] =>
  [...svg.matchAll(/aria-label="([^"]*)"/g)].map((match) =>
    match[1]!.replace(/&#(\d+);/g, (_, code: string) => String.fromCodePoint(Number(code))),
  );

export const elements = (svg: string, tag: string): string[] =>
  svg.match(new RegExp(`<${tag} [^>]*>`, "g")) ?? [];

/** Straight pieces of path data. */
export function pieces(d: string): [number, number, number, number][] {
  return d
    .split("M")
    .slice(1)
    .flatMap((chain) => {
      const closed = chain.endsWith("Z");
      const corners = chain
        .replace("Z", "")
        .split("L")
        .map((pair) => pair.split(" ").map(Number));
      if (closed) corners.push(corners[0]!);
      return corners
        .slice(1)
        .map(([x, y], i): [number, number, number, number] => [corners[i]![0]!, corners[i]![1]!, x!, y!]);
    });
}

/** The sheet's own frame: what the printed scale says, and where the ceiling's edge lies on paper. */
export function paperFrame(svg: string) {
  const denominator = Number(
    words(svg)
      .map((text) => /^Scale 1 : ([\d.]+) on A3/.exec(text)?.[1])
      .find(Boolean),
  );
  const edge = elements(svg, "path").find((path) => attribute(path, "id") === "ceiling-edge")!;
  const [left, top, right, bottom] = /^M([\d.]+) ([\d.]+)H([\d.]+)V([\d.]+)/
    .exec(attribute(edge, "d"))!
    .slice(1)
    .map(Number);
  return { denominator, left: left!, top: top!, right: right!, bottom: bottom! };
}
