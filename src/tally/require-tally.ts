import { BINS_PER_OCTAVE, SMALLEST } from "../math/quantile-bins.js";
import { requireInteger, requireNumber, requireObject, show } from "../math/require.js";
import { requireList } from "../math/require-list.js";
import type { TallyMeasure } from "./measures/measures.js";
import type { JointTally, MeasureTally, Tally, TallyGroup } from "./types.js";

/** Throws unless `given` is a tally of this schema whose counts agree with each other: a file may hold anything. */
export function requireTally(where: string, name: string, given: Tally): void {
  requireObject(where, name, given);
  requireObject(where, `${name}.header`, given.header);
  const { library, schema, version, options, bins } = given.header;
  requireSame(where, `${name}.header.library`, library, "aimed-movement");
  requireSame(where, `${name}.header.schema`, schema, 1);
  requireText(where, `${name}.header.version`, version);
  requireObject(where, `${name}.header.bins`, bins);
  requireSame(where, `${name}.header.bins.perOctave`, bins.perOctave, BINS_PER_OCTAVE);
  requireSame(where, `${name}.header.bins.smallest`, bins.smallest, SMALLEST);
  requireObject(where, `${name}.header.options`, options);
  requireText(where, `${name}.header.options.unit`, options.unit);
  for (const list of ["measures", "covariances", "labels"] as const) {
    requireArray(where, `${name}.header.options.${list}`, options[list]);
    options[list].forEach((entry, i) => {
      requireText(where, `${name}.header.options.${list}[${i}]`, entry);
    });
  }
  requireObject(where, `${name}.header.options.edges`, options.edges);
  requireArray(where, `${name}.groups`, given.groups);
  given.groups.forEach((group, i) => {
    requireGroup(where, `${name}.groups[${i}]`, group, given);
  });
}

function requireGroup(where: string, name: string, group: TallyGroup, { header: { options } }: Tally): void {
  requireObject(where, name, group);
  requireCount(where, `${name}.n`, group.n);
  requireCount(where, `${name}.pressedInMotion`, group.pressedInMotion);
  requireObject(where, `${name}.labels`, group.labels);
  for (const label of options.labels) requireText(where, `${name}.labels.${label}`, group.labels[label]);
  for (const counts of ["outcomes", "flags"] as const) {
    requireObject(where, `${name}.${counts}`, group[counts]);
    for (const [key, count] of Object.entries(group[counts])) requireCount(where, `${name}.${counts}.${key}`, count);
  }
  requireObject(where, `${name}.measures`, group.measures);
  for (const measure of options.measures) {
    const own = group.measures[measure];
    requireMeasure(where, `${name}.measures.${measure}`, own!, group.n, edgesOf(options, measure));
  }
  requireJoint(where, `${name}.joint`, group.joint, options.covariances.length);
}

function requireMeasure(where: string, name: string, own: MeasureTally, rows: number, edges: number): void {
  requireObject(where, name, own);
  requireCount(where, `${name}.n`, own.n);
  requireCount(where, `${name}.missing`, own.missing);
  requireSame(where, `${name}.n + missing`, own.n + own.missing, rows);
  for (const end of ["min", "max"] as const) {
    if (own.n === 0) requireSame(where, `${name}.${end}`, own[end], null);
    else requireNumber(where, `${name}.${end}`, own[end]!);
  }
  requireList(where, `${name}.sum`, own.sum);
  requireList(where, `${name}.sumOfSquares`, own.sumOfSquares);
  requireArray(where, `${name}.bins`, own.bins);
  let counted = 0;
  own.bins.forEach((entry, i) => {
    requireArray(where, `${name}.bins[${i}]`, entry);
    requireInteger(where, `${name}.bins[${i}][0]`, entry[0], i === 0 ? Number.MIN_SAFE_INTEGER : own.bins[i - 1]![0] + 1);
    requireInteger(where, `${name}.bins[${i}][1]`, entry[1], 1);
    counted += entry[1];
  });
  requireSame(where, `the values in ${name}.bins`, counted, own.n);
  requireSame(where, `the length of ${name}.histogram`, own.histogram?.length ?? 0, edges === 0 ? 0 : edges + 1);
  own.histogram?.forEach((count, i) => {
    requireCount(where, `${name}.histogram[${i}]`, count);
  });
}

function requireJoint(where: string, name: string, joint: JointTally, size: number): void {
  requireObject(where, name, joint);
  requireCount(where, `${name}.n`, joint.n);
  for (const [list, length] of [
    ["sums", size],
    ["sumsOfProducts", (size * (size + 1)) / 2],
  ] as const) {
    requireArray(where, `${name}.${list}`, joint[list]);
    requireSame(where, `the length of ${name}.${list}`, joint[list].length, length);
    joint[list].forEach((sum, i) => {
      requireList(where, `${name}.${list}[${i}]`, sum);
    });
  }
}

function edgesOf({ edges }: Tally["header"]["options"], measure: TallyMeasure): number {
  return edges[measure]?.length ?? 0;
}

function requireCount(where: string, name: string, count: number): void {
  requireInteger(where, name, count, 0);
}

function requireArray(where: string, name: string, list: unknown): void {
  if (!Array.isArray(list)) throw new TypeError(`${where}: ${name} must be a list, got ${show(list)}`);
}

function requireText(where: string, name: string, text: unknown): void {
  if (typeof text !== "string") throw new TypeError(`${where}: ${name} must be a text, got ${show(text)}`);
}

function requireSame(where: string, name: string, got: unknown, wanted: string | number | null): void {
  if (got !== wanted) throw new RangeError(`${where}: ${name} must be ${show(wanted)}, got ${show(got)}`);
}
