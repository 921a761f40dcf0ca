import { analyze, diagnose, type Part, type PractisedSession } from "aimed-movement";
import { type SimulateRecordingOptions, simulateRecording } from "aimed-movement/simulate";

const NAMES: Readonly<Record<Part, string>> = {
  nextTarget: "next target",
  primary: "primary",
  correction: "correction",
  stopAndPress: "stop and press",
};
const USUAL = { correction: { onset: [0.05, 0.2] } } as const;

function period(firstSeed: number, habits: SimulateRecordingOptions): PractisedSession[] {
  return Array.from({ length: 5 }, (_, day) => ({
    startedAt: `2026-0${firstSeed < 100 ? 3 : 4}-0${day + 1}T18:00:00Z`,
    equipment: { id: "desk" },
    rows: analyze(simulateRecording({ movements: 60, ...USUAL, ...habits, seed: firstSeed + day }).recording),
  }));
}

/** Excess of each part of three simulated people beyond an earlier period of their own, and what could have been detected. */
export function spec(): object {
  const earlier = period(1, {});
  const people = {
    "scatters more": { primary: { alongSd: 0.09, acrossSd: 0.045 } },
    "presses later": { press: { delay: 0.13 } },
    "as before": {},
  };
  const rows = Object.entries(people).flatMap(([person, habits], p) => {
    const { parts, verdict } = diagnose(period(101 + 10 * p, habits), { reference: { earlier } });
    const said = verdict.kind === "weakestPart" ? `${person}: ${NAMES[verdict.part]}` : `${person}: no weakest part`;
    return parts.flatMap(({ part, excess, detectable, own, passedOn }) => {
      if (!excess.ok || excess.interval === undefined || !own.ok || !passedOn.ok) return [];
      const ms = (seconds: number): number => Math.round(1000 * seconds);
      const [low, high] = excess.interval;
      return [
        {
          person: said,
          part: NAMES[part],
          excess: ms(excess.value),
          low: ms(low),
          high: ms(high),
          own: ms(own.value),
          detectable: ms(detectable!),
        },
      ];
    });
  });
  const y = { field: "part", type: "nominal", title: null, sort: Object.values(NAMES) } as const;
  const x = { type: "quantitative", title: "ms per acquisition beyond the earlier period" } as const;
  return {
    title: "Excess by part of three simulated people, 5 sessions of 60 against 5 of 60",
    data: { values: rows },
    facet: {
      row: {
        field: "person",
        type: "nominal",
        title: null,
        sort: null,
        header: { labelAngle: 0, labelAlign: "left", labelOrient: "top", labelAnchor: "start" },
      },
    },
    spec: {
      width: 480,
      height: 110,
      encoding: { y },
      layer: [
        { mark: { type: "bar", color: "#d5dbe2", height: 18 }, encoding: { x: { field: "detectable", ...x }, x2: { datum: 0 } } },
        { mark: { type: "rule", strokeWidth: 2 }, encoding: { x: { field: "low", ...x }, x2: { field: "high" } } },
        { mark: { type: "point", filled: true, color: "#1d232a", size: 70 }, encoding: { x: { field: "excess", ...x } } },
        { mark: { type: "tick", color: "#1d232a", thickness: 2, height: 18 }, encoding: { x: { field: "own", ...x } } },
        { mark: { type: "rule", strokeDash: [3, 3] }, encoding: { x: { datum: 0 } } },
      ],
    },
  };
}
