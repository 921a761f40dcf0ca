import { endpointScatter } from "../../endpoints/endpoint-scatter.js";
import type { Acquisition } from "../../movement/types.js";
import { countOf } from "../count-of.js";
import { type ChartSpec, chart, extent, INK, thinned } from "./theme.js";

/** Points drawn at most; more hide each other. */
const MOST_POINTS = 2000;
/** Corners of a drawn ellipse or circle. */
const CORNERS = 72;

/** Where first presses fell about the target's centre, in target widths, with their mean and the ellipse that holds 95 % of such presses. */
export function endpointsChart(rows: readonly Acquisition[]): ChartSpec {
  const ends = rows.flatMap(({ errors: { press }, width, outcome }) =>
    press?.along === undefined || press.across === undefined
      ? []
      : [{ along: press.along / width, across: press.across / width, press: outcome === "hit" ? "hit" : "missed first" }],
  );
  const drawn = thinned(ends, MOST_POINTS);
  const scatter = endpointScatter(
    { x: Float64Array.from(ends, ({ along }) => along), y: Float64Array.from(ends, ({ across }) => across) },
    { unit: "W" },
  );
  const mean = scatter.ok ? [{ along: scatter.mean[0], across: scatter.mean[1], is: "mean" }] : [];
  const outlines = [...outline(0, 0, [0.5, 0], [0, 0.5], "target"), ...(scatter.ok ? ellipseOf(scatter.mean, scatter.covariance) : [])];
  const [, reach] = extent([1, ...farthest(ends), ...farthest(outlines)]);
  const scale = { domain: [-1.05 * reach, 1.05 * reach], nice: false };
  const x = { field: "along", type: "quantitative", title: "along the way, target widths (right: too far)", scale };
  const y = { field: "across", type: "quantitative", title: ["across, target widths", "(up: left of the way)"], scale };
  const hits = ends.filter(({ press }) => press === "hit").length;
  const left = rows.length - ends.length;
  const figures = scatter.ok
    ? ` Mean ${scatter.mean[0].toFixed(2)} along and ${scatter.mean[1].toFixed(2)} across; the dashed ellipse holds 95 % of such presses.`
    : "";
  const cut = drawn.length < ends.length ? `, ${drawn.length} of them drawn` : "";
  return chart(
    "endpoints",
    "Where presses fall",
    `n = ${ends.length}${cut}; solid circle: target; dashed: 95 % of such presses; triangle: mean`,
    `First presses about the target's centre, ${ends.length}${cut}, ${hits} of them hits.${figures}${left > 0 ? ` ${countOf(left, "acquisition")} without a press or a direction left out.` : ""}`,
    {
      width: 340,
      height: 340,
      layer: [
        {
          data: { values: drawn },
          mark: { type: "point", size: 28, color: INK.middle, opacity: 0.8 },
          encoding: {
            x,
            y,
            shape: {
              field: "press",
              type: "nominal",
              scale: { domain: ["hit", "missed first"], range: ["circle", "cross"] },
              legend: { title: "first press" },
            },
          },
        },
        {
          data: { values: outlines },
          mark: { type: "line", color: INK.dark, strokeWidth: 2 },
          encoding: {
            x,
            y,
            order: { field: "at" },
            strokeDash: {
              field: "is",
              type: "nominal",
              scale: {
                domain: ["target", "95 % ellipse"],
                range: [
                  [1, 0],
                  [5, 4],
                ],
              },
              legend: null,
            },
          },
        },
        {
          data: { values: mean },
          mark: { type: "point", shape: "triangle-up", filled: true, size: 130, color: INK.dark, opacity: 1 },
          encoding: { x, y },
        },
      ],
    },
  );
}

type Pair = readonly [number, number];

interface Place {
  readonly along: number;
  readonly across: number;
}

/** The larger distance of each along either axis. */
function farthest(places: readonly Place[]): number[] {
  return places.map(({ along, across }) => Math.max(Math.abs(along), Math.abs(across)));
}

/** Corners of an ellipse with these half axes. */
function outline(
  along: number,
  across: number,
  one: Pair,
  other: Pair,
  is: string,
): (Place & { readonly at: number; readonly is: string })[] {
  return Array.from({ length: CORNERS + 1 }, (_, at) => {
    const [c, s] = [Math.cos((2 * Math.PI * at) / CORNERS), Math.sin((2 * Math.PI * at) / CORNERS)];
    return { along: along + c * one[0] + s * other[0], across: across + c * one[1] + s * other[1], at, is };
  });
}

/** 95 % of a normal scatter: half axes are standard deviations times the root of -2 ln 0.05. */
function ellipseOf([along, across]: Pair, [[xx, xy], [, yy]]: readonly [Pair, Pair]): ReturnType<typeof outline> {
  const reach = Math.sqrt(-2 * Math.log(0.05));
  // the Cholesky factor of the covariance takes the unit circle to the ellipse
  const a = Math.sqrt(xx);
  const b = a === 0 ? 0 : xy / a;
  return outline(along, across, [reach * a, reach * b], [0, reach * Math.sqrt(Math.max(0, yy - b * b))], "95 % ellipse");
}
