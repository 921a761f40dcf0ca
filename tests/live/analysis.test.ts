import { describe, expect, it } from "vitest";
import { ACQUISITION_HEAD } from "../../docs/live/acquisition-head.js";
import { acquisitionCells } from "../../docs/live/acquisition-table.js";
import { analysisOf } from "../../docs/live/analysis.js";
import { simulatedSession } from "../../docs/live/example.js";
import { analyze } from "../../src/movement/index.js";
import { formatRecording, parseRecording } from "../../src/trace/index.js";

const session = simulatedSession(1);
const analysis = analysisOf(session);
const table = (words: string) => analysis.tables.find(({ caption }) => caption.startsWith(words))!;

describe("the analysis that the page shows", () => {
  it("has every cell of every table", () => {
    expect(analysis.tables.length).toBe(5);
    for (const { head, rows } of [...analysis.tables, analysis.acquisitions]) for (const row of rows) expect(row.length).toBe(head.length);
    expect(JSON.stringify(analysis)).not.toMatch(/NaN|undefined|Infinity/);
  });

  // Source: Shannon form, worked by hand: log2(180/40 + 1) = 2.46, log2(360/16 + 1) = 4.55.
  it("names the conditions as they were set, with their difficulty", () => {
    const { rows } = table("Speed and accuracy");
    expect(rows.map(([name, bits]) => `${name}: ${bits}`)).toEqual([
      "180 px away, 40 px wide: 2.46 bit",
      "180 px away, 16 px wide: 3.61 bit",
      "360 px away, 40 px wide: 3.32 bit",
      "360 px away, 16 px wide: 4.55 bit",
      "all conditions: ",
    ]);
    expect(rows.every((row) => / bit\/s \(.* to .*\)$/.test(row[5]!))).toBe(true);
  });

  it("lists the acquisitions of the recordings, and draws four charts", () => {
    const rows = session.recordings.flatMap((recording) => analyze(recording));
    expect(analysis.acquisitions).toEqual({ caption: "Every acquisition", head: ACQUISITION_HEAD, rows: rows.map(acquisitionCells) });
    expect(analysis.charts.map(({ id }) => id)).toEqual(["speed-profile", "endpoints", "time-budget", "pursuit-response"]);
  });

  it("is the same of the file", () => {
    expect(analysisOf(parseRecording(formatRecording(session)).session)).toEqual(analysis);
  });

  it("says why there are no figures", () => {
    const { trace, space } = session.recordings[0]!;
    const bare = { schema: 1, space, device: "mouse", trace, presses: [], targets: [], trials: [], marks: [] } as const;
    const { headline, tables, charts } = analysisOf({ ...session, recordings: [bare] });
    expect(headline).toBe("No trial.");
    expect(tables.length).toBe(1);
    expect(charts).toEqual([]);
    const one = analysisOf({
      ...session,
      recordings: [{ ...session.recordings[0]!, trials: [{ ...session.recordings[0]!.trials[0]!, goals: ["target-1-1"] }] }],
    });
    expect(one.headline).toContain("not known (too few data)");
  });
});
