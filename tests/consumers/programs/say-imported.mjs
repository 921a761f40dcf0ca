import { entries } from "./entries.mjs";
import { resultsOf } from "./results.mjs";

console.log(JSON.stringify(resultsOf(entries)));
