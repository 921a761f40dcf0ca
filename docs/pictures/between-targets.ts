import { analyze, analyzeSequence, type SequenceStep } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

/** Where simulated primaries ended between the chosen target and the nearest other one. */
export function spec(): object {
  return {
    title: {
      text: "Ends of the primary submovement beside the nearest other target, simulated",
      subtitle: "0 is the chosen target, 1 the other; from 0.2 to 0.8 (dashed) and near enough to the line counts as between",
    },
    resolve: { legend: { color: "independent", shape: "independent" } },
    vconcat: [panel("Nothing pulls", 0), panel("A third of the movements is pulled half the way", 1 / 3)],
  };
}

function panel(name: string, pullShare: number): object {
  const { recording } = simulateRecording({ seed: 33, movements: 240, sequence: 4, planning: { random: 1, pullShare, pull: 0.5 } });
  const { sequences, between } = analyzeSequence(recording, analyze(recording));
  const { observed, expected } = between.primary;
  const share = (one: typeof observed): string => (one.ok ? `${(100 * one.value).toFixed(1)} %` : "unknown");
  const limit = (at: number): object => ({
    mark: { type: "rule", strokeDash: [4, 3], color: "#8a94a0" },
    data: { values: [{ at }] },
    encoding: { x: { field: "at", type: "quantitative" } },
  });
  return {
    title: { text: `${name}: ${share(observed)} between, ${share(expected)} expected by own scatter`, fontSize: 12 },
    width: 520,
    height: 130,
    layer: [
      limit(0.2),
      limit(0.8),
      {
        data: { values: sequences.flatMap(({ steps }) => steps.flatMap(pointOf)) },
        mark: { type: "point", opacity: 0.6 },
        encoding: {
          x: {
            field: "share",
            type: "quantitative",
            title: "share of the way from the chosen to the other target",
            scale: { domain: [-0.3, 1.1] },
          },
          y: { field: "off", type: "quantitative", title: "off the line, share", scale: { domain: [0, 0.4] } },
          color: { field: "ended", type: "nominal", title: null, sort: ["not between", "between"], legend: { orient: "top-right" } },
          shape: { field: "ended", type: "nominal", title: null, sort: ["not between", "between"], legend: { orient: "top-right" } },
        },
      },
    ],
  };
}

function pointOf({ primary }: SequenceStep): object[] {
  if (primary === undefined) return [];
  const off = primary.offLine / primary.distance;
  if (primary.share < -0.3 || primary.share > 1.1 || off > 0.4) return [];
  return [{ share: primary.share, off, ended: primary.between ? "between" : "not between" }];
}
