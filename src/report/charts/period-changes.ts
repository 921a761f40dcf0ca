import { countOf } from "../count-of.js";
import type { SessionsComparison } from "../types.js";
import { blank, type ChartSpec, chart, INK } from "./theme.js";

const VERDICTS = { better: "better", worse: "worse", equivalent: "unchanged", cannotTell: "cannot tell" } as const;

interface Change {
  readonly label: string;
  readonly order: number;
  readonly percent: boolean;
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly worth: number;
  readonly verdict: string;
}

/** Change of every measure between two periods, with its interval, beside none and the band of changes that matter to nobody. Shares and times in panels of their own. */
export function changesChart(comparison: SessionsComparison): ChartSpec {
  const changes = comparison.measures.flatMap(({ label, comparison: one, skill }, order): (Change & { readonly unit: string })[] => {
    if (one === null || !one.change.ok) return [];
    const { value, unit, interval = [value, value] } = one.change;
    const factor = unit === "s" ? 1000 : unit === "1" ? 100 : 1;
    return [
      {
        label,
        order,
        percent: unit === "%",
        unit: unit === "s" ? "ms" : unit === "1" ? "percentage points" : unit,
        value: factor * value,
        low: factor * interval[0],
        high: factor * interval[1],
        worth: factor * one.worthwhile,
        verdict: VERDICTS[skill],
      },
    ];
  });
  const units = [...new Set(changes.map(({ unit }) => unit))];
  const { before, after, measures } = comparison;
  const left = measures.length - changes.length;
  const figures = changes.map(
    ({ label, value, low, high, unit, verdict }) => `${label} ${say(value)} (${say(low)} to ${say(high)}) ${unit}, ${verdict}`,
  );
  return chart(
    "period-changes",
    "What changed",
    `${countOf(before.sessions, "session")} against ${after.sessions}, n = ${before.rows} and ${after.rows}; grey: too small to matter`,
    `Changes with intervals between ${before.sessions} and ${after.sessions} sessions: ${figures.length === 0 ? "none" : figures.join("; ")}${left > 0 ? `; ${countOf(left, "measure")} could not be compared` : ""}.`,
    units.length === 0
      ? blank("No measure could be compared.")
      : {
          vconcat: units.map((unit) =>
            panel(
              changes.filter((change) => change.unit === unit),
              unit,
            ),
          ),
        },
  );
}

function say(value: number): string {
  return String(Number(value.toPrecision(3)));
}

function panel(values: readonly Change[], unit: string): object {
  const y = { field: "label", type: "nominal", sort: { field: "order", op: "min" }, title: null, axis: { labelLimit: 0 } };
  const x = (field: string) => ({ field, type: "quantitative", title: `change, ${unit}` });
  return {
    width: 360,
    height: { step: 28 },
    data: { values },
    layer: [
      {
        transform: [{ calculate: "-datum.worth", as: "from" }],
        mark: { type: "bar", color: INK.band, height: { band: 0.8 } },
        encoding: { y, x: x("from"), x2: { field: "worth" } },
      },
      { data: { values: [{}] }, mark: { type: "rule", color: INK.middle }, encoding: { x: { datum: 0 } } },
      { mark: { type: "rule", strokeWidth: 2, color: INK.middle }, encoding: { y, x: x("low"), x2: { field: "high" } } },
      { mark: { type: "point", filled: true, size: 70, color: INK.dark, opacity: 1 }, encoding: { y, x: x("value") } },
      {
        mark: { type: "text", align: "left", fontSize: 12, color: INK.dark },
        encoding: { y, x: { value: 368 }, text: { field: "verdict" } },
      },
    ],
  };
}
