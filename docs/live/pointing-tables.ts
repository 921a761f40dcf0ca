// Tables of standing targets: throughput, scatter, and where the time went.
import { endpointScatter } from "../../src/endpoints/index.js";
import { type PointingTrials, throughput } from "../../src/fitts/index.js";
import { indexOfDifficulty } from "../../src/fitts/index-of-difficulty.js";
import { meanEstimate } from "../../src/math/mean-estimate.js";
import { type PointingTrialsOptions, pointingTrials } from "../../src/movement/index.js";
import type { Acquisition } from "../../src/movement/types.js";
import type { ReportTable } from "../../src/report/render/document.js";
import { BUDGET_WORDS } from "../../src/report/render/report-document.js";
import { sayValue } from "../../src/report/review/say.js";
import type { SessionSummary } from "../../src/report/types.js";
import type { Estimate } from "../../src/trace/index.js";
import type { Recording, Session } from "../../src/trace/types.js";
import { estimateWords } from "./words.js";

const FEW_TRIALS = "no interval with fewer than six trials in a condition";

/** The throughput of a session's acquisitions, and the tables about it. */
export interface PointingTables {
  readonly throughput: Estimate;
  readonly tables: readonly ReportTable[];
}

export function pointingTables({ rows, space }: SessionSummary, { recordings }: Session): PointingTables {
  const { trials, kept, leftOut } = pointingTrials(rows, nominal(rows, recordings));
  const all = throughput(trials);
  const unit = space.unit;
  const cells = all.cells.map((cell) => {
    const at = kept.flatMap((_, i) => (trials.amplitude[i] === cell.amplitude && trials.width[i] === cell.width ? [i] : []));
    return { ...cell, at, ends: at.flatMap((i) => pressOffset(rows[kept[i]!]!)) };
  });
  const left = leftOut.noAxis + leftOut.noPress;
  const name = (cell: { readonly amplitude: number; readonly width: number }): string =>
    `${sayValue(cell.amplitude, unit)} away, ${sayValue(cell.width, unit)} wide`;
  return {
    throughput: all.throughput,
    tables: [
      {
        caption: `Speed and accuracy together, from press to press${left > 0 ? `; ${left} without a press or a direction left out` : ""}`,
        head: ["condition", "difficulty", "first presses that hit", "mean movement time", "effective width", "throughput"],
        rows: [
          ...cells.map((cell) => [
            name(cell),
            sayValue(indexOfDifficulty(cell.amplitude, cell.width), "bit"),
            `${Math.round(cell.hitShare * cell.n)} of ${cell.n}`,
            estimateWords(
              meanEstimate(
                cell.at.map((i) => trials.movementTime[i]!),
                "s",
              ),
            ),
            cell.effectiveWidth === null ? "not known (too few data)" : sayValue(cell.effectiveWidth, unit),
            estimateWords(throughput(only(trials, cell.at)).throughput, FEW_TRIALS),
          ]),
          ["all conditions", "", hits(rows, kept), "", "", estimateWords(all.throughput, FEW_TRIALS)],
        ],
      },
      {
        caption:
          "Where first presses fell, from the target's centre: along the way (positive is too far) and across it (positive is to the left)",
        head: ["condition", "presses", "mean along", "mean across", "spread along", "spread across"],
        rows: cells.map((cell) => [name(cell), String(cell.ends.length), ...scatterCells(cell.ends, unit)]),
      },
    ],
  };
}

/** The distance and width that the trials of a block name as their condition, where all blocks do so; else those of the rows. */
function nominal(rows: readonly Acquisition[], recordings: readonly Recording[]): PointingTrialsOptions {
  const conditions = new Map(
    recordings.flatMap(({ trials }) =>
      trials.flatMap(({ block, condition: { amplitude, width } }) =>
        typeof amplitude === "number" && amplitude > 0 && typeof width === "number" && width > 0
          ? [[block, { amplitude, width }] as const]
          : [],
      ),
    ),
  );
  return rows.every(({ block }) => conditions.has(block)) ? { condition: ({ block }) => conditions.get(block)! } : {};
}

export function timeTable({ summary }: SessionSummary): ReportTable {
  const { parts, perAcquisition } = summary.time;
  const names = Object.keys(BUDGET_WORDS) as (keyof typeof BUDGET_WORDS)[];
  return {
    caption: "Where the time of an acquisition went",
    head: ["stretch", "mean", "share"],
    rows: [
      ...names.map((part) => [BUDGET_WORDS[part], estimateWords(parts[part].mean), sayValue(parts[part].share, "1")]),
      ["the whole", estimateWords(perAcquisition), ""],
    ],
  };
}

function hits(rows: readonly Acquisition[], kept: readonly number[]): string {
  return `${kept.filter((i) => rows[i]!.outcome === "hit").length} of ${kept.length}`;
}

function pressOffset({ errors }: Acquisition): { along: number; across: number }[] {
  const { along, across } = errors.press ?? {};
  return along === undefined || across === undefined ? [] : [{ along, across }];
}

/** Bias and spread on both axes, or why not. */
function scatterCells(ends: readonly { readonly along: number; readonly across: number }[], unit: string): string[] {
  const scatter = endpointScatter(
    { x: Float64Array.from(ends, ({ along }) => along), y: Float64Array.from(ends, ({ across }) => across) },
    { unit },
  );
  const figures = scatter.ok ? [scatter.x.constant, scatter.y.constant, scatter.sd.x, scatter.sd.y] : [scatter, scatter, scatter, scatter];
  return figures.map((figure) => estimateWords(figure as Estimate));
}

function only(trials: PointingTrials, at: readonly number[]): PointingTrials {
  const pick = (column: Float64Array): Float64Array => Float64Array.from(at, (i) => column[i]!);
  return {
    amplitude: pick(trials.amplitude),
    width: pick(trials.width),
    movementTime: pick(trials.movementTime),
    along: pick(trials.along),
    travelled: pick(trials.travelled!),
    hit: pick(trials.hit!),
  };
}
