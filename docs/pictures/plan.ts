import { type Part, type PlanItem, planPractice } from "aimed-movement";

const NAMES: Readonly<Record<Part | "combined" | "rest" | "test", string>> = {
  primary: "primary movement",
  correction: "corrections",
  stopAndPress: "stop and press",
  nextTarget: "next target",
  combined: "all together",
  rest: "rest",
  test: "test, on some days",
};

/** Four days of practice as bars, minute by minute. */
export function spec(): object {
  const hitShare = { ok: false, why: "tooFew", unit: "1", n: 0 } as const;
  const diagnosis = { verdict: { kind: "weakestPart", part: "correction" }, parts: [], rulings: [], hitShare, sessions: 3 } as const;
  const plans = [
    ["60 min, no weak part", planPractice()],
    ["60 min, corrections weakest", planPractice({ diagnosis })],
    ["the same, parts mixed", planPractice({ diagnosis, sessions: 12 })],
    ["30 min, corrections weakest", planPractice({ minutes: 30, diagnosis })],
  ] as const;
  const values = plans.flatMap(([plan, { items }]) => {
    let at = 0;
    return items.map((item) => {
      const from = at;
      at += item.minutes;
      return { plan, what: nameOf(item), from, to: at, middle: (from + at) / 2, label: labelOf(item) };
    });
  });
  const y = { field: "plan", type: "nominal", title: null, sort: plans.map(([plan]) => plan), axis: { labelLimit: 220 } };
  return {
    title: "What planPractice puts into a day, in order (numbers: minutes)",
    width: 560,
    height: 200,
    data: { values },
    layer: [
      {
        mark: { type: "bar", stroke: "white", height: 30 },
        encoding: {
          y,
          x: { field: "from", type: "quantitative", title: "minutes since the start, rests and test included", scale: { domain: [0, 70] } },
          x2: { field: "to" },
          color: {
            field: "what",
            type: "nominal",
            title: null,
            scale: {
              domain: Object.values(NAMES),
              range: ["#0b4a8f", "#d1580b", "#5fa85f", "#b79ad0", "#9db8d6", "#eceff2", "#c9ced4"],
            },
            legend: { orient: "bottom", columns: 4, symbolType: "square" },
          },
        },
      },
      {
        mark: { type: "text", fontSize: 10, dy: -5 },
        encoding: {
          y,
          x: { field: "middle", type: "quantitative" },
          text: { field: "label" },
          color: {
            condition: { test: "datum.what === 'primary movement' || datum.what === 'corrections'", value: "white" },
            value: "#1d232a",
          },
        },
      },
    ],
  };
}

function nameOf({ part, kind }: PlanItem): string {
  return NAMES[part ?? (kind as "combined" | "rest" | "test")];
}

/** The part's letter and its minutes, so that the picture can be read without colour. */
function labelOf(item: PlanItem): string[] {
  const letter = { primary: "P", correction: "C", stopAndPress: "S", nextTarget: "N", combined: "all", rest: "r", test: "t" }[
    item.part ?? (item.kind as "combined" | "rest" | "test")
  ];
  return [letter, String(item.minutes)];
}
