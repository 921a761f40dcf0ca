// Every figure of fitts-1d's reference that the library computes, beside what it computes: throughput and its cells per person and group.
import { readFileSync } from "node:fs";
import { fitMovementTime } from "../../src/fitts/fit-movement-time.js";
import { throughput } from "../../src/fitts/throughput.js";
import type { PointingCell } from "../../src/fitts/types.js";
import { sharedPath } from "../shared.js";
import { fitts1dRows, fitts1dTrials, hitsHalfOpenBox, type Selection } from "./read-fitts-1d.js";

/** One figure: its name, ours, and the reference's. */
export type Compared = readonly [name: string, got: number, expected: number];

const SELECTIONS: readonly Selection[] = ["all", "reversal"];

/** All figures compared, or `undefined` when the folder is absent. The reference keeps nine decimals. */
export function fitts1dFigures(): Compared[] | undefined {
  const path = sharedPath("data", "fitts-1d", "facts.json");
  if (path === undefined) return undefined;
  const facts = JSON.parse(readFileSync(path, "utf8"));
  const rows = fitts1dRows();
  const compared: Compared[] = [
    ["rows", rows.length, facts.counts.rows],
    ["hits", rows.filter(hitsHalfOpenBox).length, facts.counts.hits],
    ["rows whose hit is not that of the half-open box", rows.filter((row) => hitsHalfOpenBox(row) !== (row.hit === 1)).length, 0],
  ];
  for (const selection of SELECTIONS) {
    for (const presentation of ["sequential", "random"]) {
      const result = throughput(
        fitts1dTrials(
          rows.filter((row) => row.presentation === presentation),
          selection,
        ),
      );
      const group = facts.group[presentation][selection];
      const name = `${presentation} ${selection}`;
      if (result.throughput.ok) compared.push([`${name} TP`, result.throughput.value, group.TP_mean_bits_per_s]);
      compared.push([`${name} people`, result.people.length, group.participants]);
      compared.push([`${name} error rate`, 1 - mean(result.cells.map((cell) => cell.hitShare)), group.errorRate_meanOfConditionMeans]);
      compared.push(...line(name, groupCells(result.cells), group.regression));
      for (const { person, throughput: own } of result.people) {
        const expected = facts.participants[person][selection];
        const cells = result.cells.filter((cell) => cell.person === person);
        compared.push([`${person} ${selection} TP`, own ?? Number.NaN, expected.TP_bits_per_s]);
        compared.push(...line(`${person} ${selection}`, cells, expected.regression));
        for (const condition of expected.conditions) compared.push(...cellFigures(`${person} ${selection}`, cells, condition));
      }
    }
  }
  return compared;
}

function cellFigures(name: string, cells: readonly PointingCell[], condition: Record<string, number>): Compared[] {
  const cell = cells.find(({ amplitude, width }) => amplitude === condition.A_px && width === condition.W_px);
  const at = `${name} ${condition.A_px} x ${condition.W_px}`;
  return [
    [`${at} n`, cell?.n ?? 0, condition.n!],
    [`${at} time`, cell?.movementTime ?? Number.NaN, condition.meanMT_s!],
    [`${at} error rate`, 1 - (cell?.hitShare ?? Number.NaN), condition.errorRate!],
    [`${at} bias`, cell?.bias ?? Number.NaN, condition.biasAlong_px!],
    [`${at} SD`, cell?.sd ?? Number.NaN, condition.sdAlong_px!],
    [`${at} We`, cell?.effectiveWidth ?? Number.NaN, condition.We_px!],
    [`${at} Ae`, cell?.effectiveAmplitude ?? Number.NaN, condition.Ae_px!],
    [`${at} IDe`, cell?.effectiveDifficulty ?? Number.NaN, condition.IDe!],
    [`${at} TP`, cell?.throughput ?? Number.NaN, condition.TP_bits_per_s!],
  ];
}

function line(
  name: string,
  cells: readonly { amplitude: number; width: number; movementTime: number }[],
  expected: Record<string, number>,
): Compared[] {
  const { coefficients, quality } = fitMovementTime(cells);
  const { a, b } = coefficients;
  if (!a?.ok || !b?.ok || quality === null) return [[`${name} regression`, Number.NaN, 0]];
  return [
    [`${name} intercept`, a.value, expected.intercept_s!],
    [`${name} slope`, b.value, expected.slope_s_per_bit!],
    [`${name} r`, quality.r ?? Number.NaN, expected.r!],
    [`${name} intercept's standard error`, a.standardError ?? Number.NaN, expected.seIntercept!],
    [`${name} slope's standard error`, b.standardError ?? Number.NaN, expected.seSlope!],
  ];
}

/** Mean times over people, condition by condition. */
function groupCells(cells: readonly PointingCell[]): { amplitude: number; width: number; movementTime: number }[] {
  const byCondition = new Map<string, PointingCell[]>();
  for (const cell of cells)
    byCondition.set(`${cell.amplitude} ${cell.width}`, [...(byCondition.get(`${cell.amplitude} ${cell.width}`) ?? []), cell]);
  return [...byCondition.values()].map((own) => ({
    amplitude: own[0]!.amplitude,
    width: own[0]!.width,
    movementTime: mean(own.map((cell) => cell.movementTime)),
  }));
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
