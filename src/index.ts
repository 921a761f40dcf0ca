// Everything but the browser recorder, the simulator and laws given as text, which have entries of their own.
export * from "./endpoints/index.js";
export * from "./equipment/index.js";
export * from "./fitts/index.js";
export * from "./learning/index.js";
export * from "./movement/index.js";
export * from "./pacing/index.js";
export * from "./practice/index.js";
export * from "./pursuit/index.js";
export * from "./report/index.js";
export * from "./sequence/index.js";
export * from "./tally/index.js";
export * from "./trace/index.js";
