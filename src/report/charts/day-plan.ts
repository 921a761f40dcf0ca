import type { PlanItem, PracticePlan } from "../../practice/types.js";
import { itemWords } from "../review/answer-next.js";
import { blank, type ChartSpec, chart, INK } from "./theme.js";

/** One day of practice, its stretches in order, as long as they last. */
export function planChart(plan: PracticePlan): ChartSpec {
  let at = 0;
  const values = plan.items.map((item, order) => {
    const from = at;
    at += item.minutes;
    return {
      order,
      what: `${order + 1}. ${itemWords(item)}`,
      from,
      to: at,
      minutes: `${Number(item.minutes.toFixed(1))} min`,
      shade: shadeOf(item.kind),
    };
  });
  const y = { field: "what", type: "nominal", sort: { field: "order", op: "min" }, title: null, axis: { labelLimit: 0 } };
  return chart(
    "day-plan",
    "One day of practice",
    `${plan.minutes} minutes of practice, ${plan.days} days a week. Stop at pain, tingling or numbness; ask a clinician if they stay.`,
    `${values.map(({ what, minutes }) => `${what} ${minutes}`).join(", ")}. Stop at pain, tingling or numbness; ask a clinician if they stay.`,
    values.length === 0
      ? blank("No stretch of practice.")
      : {
          width: 420,
          height: { step: 26 },
          data: { values },
          layer: [
            {
              mark: { type: "bar", stroke: INK.dark, strokeWidth: 0.7, height: { band: 0.75 } },
              encoding: {
                y,
                x: { field: "from", type: "quantitative", title: "minutes from the start, rests between sets aside" },
                x2: { field: "to" },
                fill: { field: "shade", type: "nominal", scale: null },
              },
            },
            {
              mark: { type: "text", align: "left", dx: 5, fontSize: 12, color: INK.dark },
              encoding: { y, x: { field: "to", type: "quantitative" }, text: { field: "minutes" } },
            },
          ],
        },
  );
}

function shadeOf(kind: PlanItem["kind"]): string {
  return { test: INK.paper, part: INK.pale, combined: INK.light, rest: INK.paper }[kind];
}
