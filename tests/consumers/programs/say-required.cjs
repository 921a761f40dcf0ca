const paths = require("aimed-movement/package.json").exports;

const names = Object.keys(paths).flatMap((path) => (path.endsWith(".json") ? [] : [path.replace(".", "aimed-movement")]));
const entries = Object.fromEntries(names.map((name) => [name, require(name)]));
import("./results.mjs").then(({ resultsOf }) => console.log(JSON.stringify(resultsOf(entries))));
