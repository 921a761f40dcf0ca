// Imports go one way: each folder may use itself and the folders before it, nothing else.
const order = [
  "math",
  "trace",
  "equipment",
  "endpoints",
  "fitts",
  "movement",
  "pursuit",
  "sequence",
  "learning",
  "pacing",
  "practice",
  "report",
  "tally",
];
const layer = (name, allowed) => ({
  name: `${name}-imports-one-way`,
  severity: "error",
  from: { path: `^src/${name}/` },
  to: { path: "^src/", pathNot: `^src/(${[name, ...allowed].join("|")})/` },
});

module.exports = {
  forbidden: [
    ...order.map((name, at) => layer(name, order.slice(0, at))),
    layer("cli", ["math", ...order.slice(1)]),
    layer("record", ["math", "trace"]),
    layer("simulate", ["math", "trace"]),
    layer("formula", ["math", "learning"]),
    {
      name: "every-folder-has-a-layer",
      severity: "error",
      from: { path: "^src/[^/]+/", pathNot: `^src/(${[...order, "cli", "record", "simulate", "formula"].join("|")})/` },
      to: {},
    },
    {
      name: "library-imports-only-itself",
      severity: "error",
      from: { path: "^src/" },
      to: { pathNot: "^src/", dependencyTypes: ["local"] },
    },
    { name: "no-unknown-imports", severity: "error", from: { path: "^src/" }, to: { couldNotResolve: true } },
    { name: "no-cycles", severity: "error", from: {}, to: { circular: true } },
    {
      name: "library-stands-without-its-browser-recorder-and-simulator",
      severity: "error",
      from: { path: "^src/index\\.ts$" },
      to: { path: "^src/(cli|record|simulate|formula|math)/" },
    },
    {
      name: "no-node-in-the-library",
      severity: "error",
      from: { path: "^src/", pathNot: "^src/cli(\\.ts$|/)" },
      to: { dependencyTypes: ["core"] },
    },
    {
      name: "no-development-dependencies",
      severity: "error",
      from: { path: "^src/" },
      to: { dependencyTypes: ["npm-dev", "npm-no-pkg"], dependencyTypesNot: ["npm-peer"] },
    },
    {
      name: "mathjs-in-formula-alone",
      severity: "error",
      from: { path: "^src/", pathNot: "^src/formula/" },
      to: { path: "node_modules/mathjs" },
    },
  ],
  options: {
    tsPreCompilationDeps: true,
    tsConfig: { fileName: "tsconfig.json" },
    doNotFollow: { path: "node_modules" },
    enhancedResolveOptions: { exportsFields: ["exports"], conditionNames: ["import", "types", "node", "default"] },
  },
};
