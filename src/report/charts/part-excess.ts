import { PART_LABELS } from "../../practice/part-names.js";
import type { Diagnosis } from "../../practice/types.js";
import { countOf } from "../count-of.js";
import { blank, type ChartSpec, chart, INK, ms } from "./theme.js";

const REFERENCES = { ownBest: "own best sessions", earlier: "earlier sessions", group: "the group" } as const;

/** What each part costs beyond the reference, with its interval, beside none and beside what the sessions could tell from none. */
export function excessChart(diagnosis: Diagnosis): ChartSpec {
  const { parts, rulings, verdict, reference, sessions, rows } = diagnosis;
  const values = parts.flatMap(({ part, excess, detectable }, order) => {
    if (!excess.ok) return [];
    const [low, high] = excess.interval ?? [excess.value, excess.value];
    return [
      {
        part: PART_LABELS[part],
        order,
        value: ms(excess.value),
        low: ms(low),
        high: ms(high),
        detectable: detectable === undefined ? null : ms(detectable),
        says: `${excess.value < 0 ? "−" : "+"}${Math.abs(ms(excess.value)).toFixed(0)} ms`,
      },
    ];
  });
  const words =
    verdict.kind === "weakestPart"
      ? `weakest: ${PART_LABELS[verdict.part]}`
      : {
          noWeakestPart: "no part stands out",
          limitedBy: `limited by ${verdict.kind === "limitedBy" ? verdict.factor : ""}`,
          cannotTell: "cannot tell",
        }[verdict.kind];
  const against = REFERENCES[reference.kind];
  const left = parts.length - values.length;
  const figures = values
    .map(({ part, value, low, high }) => `${part} ${value.toFixed(0)} ms (${low.toFixed(0)} to ${high.toFixed(0)})`)
    .join(", ");
  const description = `Time beyond ${against} per part, ${countOf(sessions, "session")}, ${countOf(rows, "acquisition")}: ${words}. ${figures}${left > 0 ? `; ${countOf(left, "part")} could not be told` : ""}.${standing(rulings)}`;
  const y = { field: "part", type: "nominal", sort: { field: "order", op: "min" }, title: null };
  const x = (field: string) => ({ field, type: "quantitative", title: `time beyond ${against}, ms per acquisition` });
  return chart(
    "part-excess",
    "What each part costs",
    `${words}; ${countOf(sessions, "session")}, n = ${rows}; bars: intervals; ticks: the least that could be told`,
    description,
    values.length === 0
      ? blank("No part could be told.")
      : {
          width: 420,
          height: { step: 34 },
          data: { values },
          layer: [
            { data: { values: [{}] }, mark: { type: "rule", color: INK.middle }, encoding: { x: { datum: 0 } } },
            { mark: { type: "rule", strokeWidth: 3, color: INK.middle }, encoding: { y, x: x("low"), x2: { field: "high" } } },
            { mark: { type: "point", filled: true, size: 90, color: INK.dark, opacity: 1 }, encoding: { y, x: x("value") } },
            {
              transform: [{ filter: "datum.detectable !== null" }],
              mark: { type: "tick", thickness: 2, size: 20, color: INK.dark, strokeDash: [3, 2] },
              encoding: { y, x: x("detectable") },
            },
            {
              mark: { type: "text", align: "left", fontSize: 12, color: INK.dark },
              encoding: { y, x: { value: 428 }, text: { field: "says" } },
            },
          ],
        },
  );
}

/** What may stand behind the figures and has not been ruled out. */
function standing(rulings: Diagnosis["rulings"]): string {
  const factors = (wanted: string): string => rulings.flatMap(({ factor, ruling }) => (ruling === wanted ? [factor] : [])).join(", ");
  const [limits, open] = [factors("limits"), factors("cannotTell")];
  return `${limits === "" ? "" : ` Limited by ${limits}.`}${open === "" ? "" : ` Not ruled out: ${open}.`}`;
}
