// Source: shared reference table fitts/throughput-iso.json: constructed trials, computed with NumPy 2.4.6 and SciPy 1.17.1 by the formulas of ISO 9241-411
// as recalled from Soukoreff and MacKenzie 2004; recomputed in a second language by its author.
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { effectiveWidth } from "../../src/fitts/effective-width.js";
import { projectEndpoints } from "../../src/fitts/project-endpoints.js";
import { reviewThroughput } from "../../src/fitts/review-throughput.js";
import { throughput } from "../../src/fitts/throughput.js";
import type { PointingTrials } from "../../src/fitts/types.js";
import { SHARED_ABSENT, sharedPath } from "../shared.js";

const path = sharedPath("reference", "fitts", "throughput-iso.json");
const table = path === undefined ? undefined : JSON.parse(readFileSync(path, "utf8"));
type Point = readonly [number, number];
interface Trial {
  readonly from: Point;
  readonly to: Point;
  readonly select: Point;
  readonly mt_s: number;
}
/** The table keeps ten digits and asks for 1e-6. */
const DIGITS = 6 - Math.log10(2);
const close = (value: number) => expect.closeTo(value, DIGITS);
/** sqrt(2 pi e) over its rounded value, for the figures that the table gives with both. */
const UNROUNDED = Math.sqrt(2 * Math.PI * Math.E) / 4.133;

const columns = (trials: readonly Trial[], of: (trial: Trial) => Point) => ({
  x: Float64Array.from(trials, (trial) => of(trial)[0]),
  y: Float64Array.from(trials, (trial) => of(trial)[1]),
});

function project(trials: readonly Trial[]) {
  return projectEndpoints(
    columns(trials, (trial) => trial.from),
    columns(trials, (trial) => trial.to),
    columns(trials, (trial) => trial.select),
  );
}

function trialsOf(
  trials: readonly Trial[],
  width: number,
  travelled?: (dx: Float64Array, a: Float64Array) => Float64Array,
): PointingTrials {
  const { amplitude, along } = project(trials);
  const nominal = amplitude[0]!; // the ring's coordinates are rounded: one condition all the same
  return {
    amplitude: new Float64Array(trials.length).fill(nominal),
    width: new Float64Array(trials.length).fill(width),
    movementTime: Float64Array.from(trials, (trial) => trial.mt_s),
    along,
    travelled: travelled === undefined ? amplitude.map((a, i) => a + along[i]!) : travelled(along, amplitude),
  };
}

describe.skipIf(table === undefined)(`throughput-iso${table === undefined ? `: ${SHARED_ABSENT}` : ""}`, () => {
  it.each(["oneDirection", "multiDirection"])("%s: deviations, widths, amplitudes and throughput", (name) => {
    const { trials, W, expected, expected_serial_Ae: serial } = table[name];
    const { amplitude, along, across } = project(trials);
    expect([...amplitude]).toEqual(expected.a.map(close));
    expect([...along]).toEqual(expected.dx.map(close));
    // the table's dy is positive to the right of travel on a y-down screen
    expect([...across].map((value) => 0 - value)).toEqual(expected.dy.map(close));
    const { cells, throughput: value } = throughput(trialsOf(trials, W));
    expect(cells).toMatchObject([
      {
        bias: close(expected.mean_dx),
        sd: close(expected.sd_dx),
        effectiveWidth: close(expected.We),
        effectiveAmplitude: close(expected.Ae),
        effectiveDifficulty: close(expected.IDe),
        movementTime: close(expected.mean_MT_s),
        throughput: close(expected.TP_bits_per_s),
      },
    ]);
    expect(value).toMatchObject({ ok: true, value: close(expected.TP_bits_per_s), unit: "bit/s" });
    expect(effectiveWidth(along)).toMatchObject({ ok: true, value: close(expected.We), n: trials.length });
    expect(cells[0]!.effectiveWidth! * UNROUNDED).toBeCloseTo(expected.We_unrounded_constant, 6);
    // the serial distance adds where the pointer stood: the error of the trial before, along its own axis
    const travelled = (dx: Float64Array, a: Float64Array) => a.map((distance, i) => distance + dx[i]! + (i > 0 ? dx[i - 1]! : 0));
    expect(throughput(trialsOf(trials, W, travelled)).cells).toMatchObject([
      { effectiveAmplitude: close(serial.Ae), effectiveDifficulty: close(serial.IDe), throughput: close(serial.TP_bits_per_s) },
    ]);
  });

  it("counts no error in the one-directional trials", () =>
    expect(throughput(trialsOf(table.oneDirection.trials, table.oneDirection.W)).cells[0]!.hitShare).toBe(
      1 - table.oneDirection.error_rate_1d,
    ));

  it("means of means, and what they are not", () => {
    const { IDe, MT_s, per_cell, per_participant, ...figures } = table.meanOfMeans;
    // two trials either side of the centre make any wanted width: SD of +-d is d sqrt(2)
    const rows = (IDe as number[][]).flatMap((own, person) =>
      own.flatMap((difficulty, condition) => {
        const amplitude = 100 * (condition + 1);
        const d = amplitude / (2 ** difficulty - 1) / 4.133 / Math.SQRT2;
        return [d, -d].map((along) => ({ person: `p${person}`, amplitude, along, time: MT_s[person][condition] as number }));
      }),
    );
    const trials: PointingTrials = {
      amplitude: Float64Array.from(rows, (row) => row.amplitude),
      width: new Float64Array(rows.length).fill(20),
      movementTime: Float64Array.from(rows, (row) => row.time),
      along: Float64Array.from(rows, (row) => row.along),
      person: rows.map((row) => row.person),
    };
    const { result, alternatives } = reviewThroughput(trials);
    expect(result.cells.map((cell) => cell.throughput)).toEqual(per_cell.flat().map(close));
    expect(result.people.map((person) => person.throughput)).toEqual(per_participant.map(close));
    expect(result.throughput).toMatchObject({ value: close(figures.TP_mean_of_means) });
    expect(alternatives).toEqual({
      inverseSlope: close(figures.contrast_mean_inverse_slope),
      ratioOfMeans: close(figures.contrast_mean_of_participant_ratio_of_means),
      ratioOfGrandMeans: close(figures.contrast_ratio_of_grand_means),
    });
  });

  it("gives a reason where the table has no finite answer", () => {
    const some = (along: readonly number[]): PointingTrials => ({
      amplitude: new Float64Array(along.length).fill(300),
      width: new Float64Array(along.length).fill(40),
      movementTime: new Float64Array(along.length).fill(0.6),
      along: Float64Array.from(along),
    });
    expect(throughput(some([3, 3, 3])).throughput).toEqual({ ok: false, why: "noSpread", unit: "bit/s", n: 0 });
    expect(throughput(some([3])).throughput).toEqual({ ok: false, why: "tooFew", unit: "bit/s", n: 0 });
    const still = { x: Float64Array.of(5), y: Float64Array.of(5) };
    expect(projectEndpoints(still, still, still)).toMatchObject({ noAxis: [0], kept: [] });
  });

  // a step of (N + 1)/2 around an odd ring visits every target once and spans D cos(pi/(2N))
  it("rings: the distance of a step is short of the diameter as the table says", () => {
    for (const { N, amplitude_over_diameter: share, order } of table.ringLayout.cases) {
      const at = (k: number): Point => [Math.cos((2 * Math.PI * k) / N), Math.sin((2 * Math.PI * k) / N)];
      const steps = (order as number[]).slice(1).map((to, i): Trial => ({ from: at(order[i]), to: at(to), select: at(to), mt_s: 1 }));
      for (const distance of project(steps).amplitude) expect(distance / 2).toBeCloseTo(share, 9);
    }
  });
});
