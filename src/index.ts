// Everything but the browser recorder and the simulator, which have entries of their own.
export * from "./movement/index.js";
export * from "./trace/index.js";
