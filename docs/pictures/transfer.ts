import { type Estimate, practiceTransfer } from "aimed-movement";

/** Invented deviations of eight sessions, s. */
const FIRST = [0.01, -0.04, 0.03, -0.01, 0.04, -0.02, -0.03, 0.02];
const SECOND = [-0.03, 0.02, 0.01, -0.02, 0.04, -0.04, 0.03, -0.01];

const about = (level: number, deviations: readonly number[]): number[] => deviations.map((d) => level + d);
const pair = (after: number): { before: number[]; after: number[] } => ({ before: about(1, FIRST), after: about(after, SECOND) });

/** Improvements of one task after no practice, practice of another and its own, and the transfer with and without the control. */
export function spec(): object {
  const control = pair(0.95);
  const trained = pair(0.7);
  const other = pair(0.85);
  const changes = (
    [
      ["tested only", control],
      ["another task", other],
      ["the task itself", trained],
    ] as const
  ).map(([practice, lists]) => ({ practice, ...partsOf(practiceTransfer(lists).change) }));
  const shares = (
    [
      ["less control", practiceTransfer({ ...other, trained, control })],
      ["without control", practiceTransfer({ ...other, trained })],
    ] as const
  ).map(([practice, { percentage }]) => ({ practice, ...partsOf(percentage) }));
  return {
    title: "Transfer to a task, on invented values of eight sessions each, with 95 % limits",
    hconcat: [panel(changes, "improvement of the task, s", 300), panel(shares, "transfer, % of direct training", 200)],
  };
}

interface Parts {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

function partsOf(estimate: Estimate): Parts {
  if (!estimate.ok || estimate.interval === undefined) throw new Error("the invented values give no interval");
  return { value: estimate.value, low: estimate.interval[0], high: estimate.interval[1] };
}

function panel(values: readonly (Parts & { readonly practice: string })[], title: string, width: number): object {
  const x = { field: "practice", type: "nominal", sort: null, title: null, axis: { labelAngle: 0, labelLimit: 140 } };
  return {
    width,
    height: 240,
    data: { values },
    layer: [
      {
        mark: { type: "rule", color: "#0b6bcb", strokeWidth: 2 },
        encoding: { x, y: { field: "low", type: "quantitative", title, scale: { domainMin: 0 } }, y2: { field: "high" } },
      },
      { mark: { type: "point", size: 60, color: "#0b6bcb" }, encoding: { x, y: { field: "value", type: "quantitative" } } },
    ],
  };
}
