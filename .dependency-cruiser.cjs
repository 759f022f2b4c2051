// One direction of flow: a stage may import itself and earlier stages, never a later one.
const stages = [
  "plan",
  "sky",
  "projection",
  "fibre",
  "panel",
  "schedule",
  "render",
  "outputs",
  "materials",
  "cli",
  "page",
];

const laterThan = (index) => stages.slice(index + 1).join("|");

module.exports = {
  forbidden: [
    {
      name: "no-cycles",
      severity: "error",
      comment: "Stages and files depend on each other in one direction only.",
      from: {},
      to: { circular: true },
    },
    ...stages.slice(0, -1).map((stage, index) => ({
      name: `${stage}-imports-no-later-stage`,
      severity: "error",
      comment: `src/${stage} comes before ${laterThan(index).replaceAll("|", ", ")}.`,
      from: { path: `^src/${stage}/` },
      to: { path: `^src/(${laterThan(index)})/` },
    })),
    {
      name: "core-touches-no-machine",
      severity: "error",
      comment:
        "Files, clocks, terminals and sockets live only at the ends, so that the core runs in a browser too.",
      from: { path: "^src/(plan|sky|projection|fibre|panel|schedule)/" },
      to: { dependencyTypes: ["core"] },
    },
    {
      name: "no-unresolved",
      severity: "error",
      from: {},
      to: { couldNotResolve: true },
    },
  ],
  options: {
    tsConfig: { fileName: "tsconfig.json" },
    tsPreCompilationDeps: true,
    doNotFollow: { path: "node_modules" },
    enhancedResolveOptions: {
      exportsFields: ["exports"],
      extensions: [".ts", ".js", ".mjs", ".json"],
      conditionNames: ["import", "require", "node", "default", "types"],
    },
  },
};
