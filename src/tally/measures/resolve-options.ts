import { requireNumber, requireObject, requireOneOf, show } from "../../math/require.js";
import type { Tally, TallyOptions } from "../types.js";
import { DEFAULT_COVARIANCES, DEFAULT_MEASURES, MEASURE_NAMES, type TallyMeasure } from "./measures.js";

/** Products of more measures would outweigh all else. */
const MOST_TOGETHER = 12;

/** The options of `tally` checked, with their defaults, in the one order that a set of measures or labels has. */
export function resolveOptions(options: TallyOptions): Tally["header"]["options"] {
  requireObject("tally", "options", options);
  const { unit = "px", by = {}, edges = {} } = options;
  if (typeof unit !== "string") throw new TypeError(`tally: options.unit must be a text, got ${show(unit)}`);
  const measures = namesOf("measures", options.measures ?? DEFAULT_MEASURES, MEASURE_NAMES);
  const together = options.covariances ?? DEFAULT_COVARIANCES.filter((name) => measures.includes(name));
  const covariances = namesOf("covariances", together, measures);
  if (covariances.length > MOST_TOGETHER) {
    throw new RangeError(`tally: options.covariances must name at most ${MOST_TOGETHER} measures, got ${covariances.length}`);
  }
  return { unit, measures, covariances, edges: edgesOf(edges, measures), labels: labelNames(by) };
}

function namesOf(option: string, names: readonly TallyMeasure[], allowed: readonly TallyMeasure[]): readonly TallyMeasure[] {
  if (!Array.isArray(names)) throw new TypeError(`tally: options.${option} must be a list of names, got ${show(names)}`);
  names.forEach((name, i) => {
    requireOneOf("tally", `options.${option}[${i}]`, name, allowed);
  });
  return allowed.filter((name) => names.includes(name));
}

function edgesOf(edges: NonNullable<TallyOptions["edges"]>, measures: readonly TallyMeasure[]): Tally["header"]["options"]["edges"] {
  requireObject("tally", "options.edges", edges);
  for (const name of Object.keys(edges)) requireOneOf("tally", "a name in options.edges", name as TallyMeasure, measures);
  const entries = measures.flatMap((name) => {
    const own = edges[name];
    if (own === undefined) return [];
    if (!Array.isArray(own) || own.length === 0) {
      throw new TypeError(`tally: options.edges.${name} must be a list of at least one number, got ${show(own)}`);
    }
    own.forEach((edge, i) => {
      requireNumber("tally", `options.edges.${name}[${i}]`, edge);
      if (i > 0 && edge <= own[i - 1]!) throw new RangeError(`tally: options.edges.${name} must ascend, got ${own[i - 1]} before ${edge}`);
    });
    // a negative zero would not survive JSON
    return [[name, own.map((edge) => edge + 0)]];
  });
  return Object.fromEntries(entries);
}

function labelNames(by: NonNullable<TallyOptions["by"]>): string[] {
  requireObject("tally", "options.by", by);
  if (Array.isArray(by)) throw new TypeError(`tally: options.by must be an object with a field for each label, got ${show(by)}`);
  for (const [name, given] of Object.entries(by)) {
    if (name === "row") throw new RangeError(`tally: options.by must not have a label "row": readTally calls the rows themselves so`);
    if (typeof given !== "string" && typeof given !== "function") {
      throw new TypeError(`tally: options.by.${name} must be a text or a function of a row, got ${show(given)}`);
    }
  }
  return Object.keys(by).sort();
}
