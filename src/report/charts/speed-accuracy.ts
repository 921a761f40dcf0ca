import { sdEstimate } from "../../math/sd-estimate.js";
import type { PaceRecommendation, PaceTrials, SpeedAccuracyFit } from "../../pacing/index.js";
import { countOf } from "../count-of.js";
import { type LawPoint, lawBand } from "./law-band.js";
import { blank, type ChartSpec, chart, INK, ms } from "./theme.js";

/** A pace that is this many times as long as the slowest one seen, or that share of the fastest, is said, not drawn: it would flatten everything else. */
const FAR = 2;

/**
 * Share of presses that hit against movement time: counted at each pace, by the fitted scatter and by hits alone, and the pace that the wanted share asks for. Below it
 * the scatter along the movement, as fitted and, with the trials, as seen at each pace.
 */
export function speedAccuracyChart(fit: SpeedAccuracyFit, recommended?: PaceRecommendation, trials?: PaceTrials): ChartSpec {
  const counted = fit.paces.flatMap(({ pace, movementTime, hitSharePressed: hits, n, timeouts }) =>
    hits.ok
      ? [
          {
            pace: `${pace} (n = ${n - timeouts})`,
            t: ms(movementTime),
            share: 100 * hits.value,
            low: 100 * (hits.interval?.[0] ?? hits.value),
            high: 100 * (hits.interval?.[1] ?? hits.value),
          },
        ]
      : [],
  );
  const band = lawBand(fit);
  const spread = trials?.pace === undefined ? [] : scatterSeen(fit, trials, trials.pace);
  const mark = paceMark(fit, recommended);
  const words = counted.map((one) => `${one.pace}: ${one.share.toFixed(0)} % at ${one.t.toFixed(0)} ms`).join("; ");
  const left = fit.paces.length - counted.length;
  const description = [
    `Share of hits against movement time at ${countOf(counted.length, "pace")}, ${countOf(fit.n, "trial")}, ${fit.timeouts} of them without a press${left > 0 ? `, ${countOf(left, "pace")} without any press left out` : ""}.`,
    words === "" ? "" : ` ${words}.`,
    ` ${advice(recommended)}`,
    mark === undefined && recommended?.movementTime.ok ? " That is too far from the paces seen to be drawn." : "",
  ].join("");
  const scattered = band.length > 0 || spread.length > 0;
  return chart(
    "speed-accuracy",
    "Speed and accuracy",
    `n = ${fit.n}; bars and grey bands: ${Math.round(100 * fit.level)} % intervals; diamond: pace for the wanted share`,
    description,
    fit.curve.length === 0
      ? blank("No press.")
      : {
          vconcat: [hitPanel(fit, band, counted, mark), ...(scattered ? [scatterPanel(fit.unit, band, spread)] : [])],
          resolve: { scale: { x: "shared" } },
        },
  );
}

const x = (field = "t") => ({ field, type: "quantitative", title: "movement time, ms", scale: { zero: false } });
const quantity = (field: string, title: string) => ({ field, type: "quantitative", title, scale: { zero: false } });

type Mark = ReturnType<typeof paceMark>;

function hitPanel(fit: SpeedAccuracyFit, band: readonly LawPoint[], counted: readonly object[], mark: Mark): object {
  const y = (field = "share") => quantity(field, "first presses that hit, %");
  const marks = mark === undefined ? [] : [mark];
  const curves = fit.curve.flatMap(({ movementTime, scatter, probit }) => [
    ...(scatter === null ? [] : [{ t: ms(movementTime), share: 100 * scatter, by: "by scatter and target" }]),
    ...(probit === null ? [] : [{ t: ms(movementTime), share: 100 * probit, by: "by hits alone" }]),
  ]);
  const area = band.map(({ t, lowShare, highShare }) => ({ t: ms(t), low: 100 * lowShare, high: 100 * highShare }));
  return {
    width: 440,
    height: 240,
    layer: [
      { data: { values: area }, mark: { type: "area", color: INK.band }, encoding: { x: x(), y: y("low"), y2: { field: "high" } } },
      {
        data: { values: curves },
        mark: { type: "line", color: INK.middle, strokeWidth: 2 },
        encoding: {
          x: x(),
          y: y(),
          strokeDash: {
            field: "by",
            type: "nominal",
            scale: {
              domain: ["by scatter and target", "by hits alone"],
              range: [
                [1, 0],
                [4, 3],
              ],
            },
            legend: { title: "fitted", columns: 1 },
          },
        },
      },
      { data: { values: counted }, mark: { type: "rule", color: INK.dark }, encoding: { x: x(), y: y("low"), y2: { field: "high" } } },
      {
        data: { values: counted },
        mark: { type: "point", size: 90, color: INK.dark, strokeWidth: 2, opacity: 1 },
        encoding: {
          x: x(),
          y: y(),
          shape: { field: "pace", type: "nominal", sort: null, legend: { title: "counted at the pace", columns: 2 } },
        },
      },
      {
        data: { values: marks },
        mark: { type: "rule", strokeWidth: 4, color: INK.light },
        encoding: { x: x("low"), x2: { field: "high" }, y: y() },
      },
      {
        data: { values: marks },
        mark: { type: "point", shape: "diamond", filled: true, size: 150, color: INK.paper, stroke: INK.dark, strokeWidth: 2, opacity: 1 },
        encoding: { x: x(), y: y() },
      },
      {
        data: { values: marks },
        mark: { type: "text", align: "left", dx: 11, fontSize: 12, fontWeight: "bold", color: INK.dark },
        encoding: { x: x(), y: y(), text: { field: "says" } },
      },
    ],
  };
}

function scatterPanel(unit: string, band: readonly LawPoint[], spread: readonly object[]): object {
  const y = (field: string) => quantity(field, `scatter along (SD), ${unit}`);
  const values = band.map(({ t, sd, lowSd, highSd }) => ({ t: ms(t), sd, low: lowSd, high: highSd }));
  return {
    width: 440,
    height: 130,
    layer: [
      { data: { values }, mark: { type: "area", color: INK.band }, encoding: { x: x(), y: y("low"), y2: { field: "high" } } },
      { data: { values }, mark: { type: "line", color: INK.middle, strokeWidth: 2 }, encoding: { x: x(), y: y("sd") } },
      { data: { values: spread }, mark: { type: "rule", color: INK.dark }, encoding: { x: x(), y: y("low"), y2: { field: "high" } } },
      {
        data: { values: spread },
        mark: { type: "point", size: 90, color: INK.dark, strokeWidth: 2, opacity: 1 },
        encoding: { x: x(), y: y("sd"), shape: { field: "pace", type: "nominal", sort: null } },
      },
    ],
  };
}

/** Standard deviation along the movement at each pace, of its presses. */
function scatterSeen(fit: SpeedAccuracyFit, { along, pressed }: PaceTrials, labels: readonly string[]): object[] {
  return fit.paces.flatMap(({ pace, movementTime, n, timeouts }) => {
    const errors = labels.flatMap((label, i) => (label === pace && pressed?.[i] !== 0 ? [along[i]!] : []));
    const sd = sdEstimate(errors, fit.unit, fit.level);
    if (!sd.ok) return [];
    const [low, high] = sd.interval ?? [sd.value, sd.value];
    return [{ pace: `${pace} (n = ${n - timeouts})`, t: ms(movementTime), sd: sd.value, low, high }];
  });
}

/** The pace with its interval; an end that is open is drawn to the pace itself: no bar says more than is known. */
function paceMark(fit: SpeedAccuracyFit, recommended: PaceRecommendation | undefined) {
  if (!recommended?.movementTime.ok) return undefined;
  const { value } = recommended.movementTime;
  const [first, last] = [fit.curve[0], fit.curve[fit.curve.length - 1]];
  if (first === undefined || value > FAR * last!.movementTime || FAR * value < first.movementTime) return undefined;
  const { low, high } = recommended.bounds;
  return {
    t: ms(value),
    share: 100 * recommended.wanted,
    low: ms(low ?? value),
    high: ms(high ?? value),
    says: `${ms(value).toFixed(0)} ms`,
  };
}

function advice(recommended: PaceRecommendation | undefined): string {
  if (!recommended?.movementTime.ok) return "No pace can be recommended from these.";
  const { wanted, movementTime, bounds, verdict } = recommended;
  const end = (seconds: number | null): string => (seconds === null ? "open" : `${ms(seconds).toFixed(0)} ms`);
  const trust = verdict === "clear" ? "" : ", which is not to be leaned on";
  return `${(100 * wanted).toFixed(0)} % take ${ms(movementTime.value).toFixed(0)} ms (interval from ${end(bounds.low)} to ${end(bounds.high)})${trust}.`;
}
