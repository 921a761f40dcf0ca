// A law of practice as text: the one entry that needs mathjs, which you install beside this package.
export type { LawFromTextOptions } from "./law-from-text.js";
export { lawFromText } from "./law-from-text.js";
