import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { assessSampling } from "../../src/trace/assess-sampling.js";
import { parseRecording } from "../../src/trace/parse-recording.js";
import { SHARED_ABSENT, sharedPath } from "../shared.js";
import { NO_POSITION, officeRemoteNames, officeRemotePath, readOffice } from "./convert-office-remote.js";
import { officeRemoteDifferences, officeRemoteFacts } from "./office-remote-facts.js";

const path = sharedPath("data", "office-remote", "facts.json");
const facts = path === undefined ? undefined : JSON.parse(readFileSync(path, "utf8"));
const names = officeRemoteNames();

// Source: data/office-remote/facts.json, made by the NumPy script beside it from the same files, independently of this project.
describe.skipIf(path === undefined)(`office-remote recordings${path === undefined ? `: ${SHARED_ABSENT}` : ""}`, () => {
  it("are all there", () => {
    expect(names.map((name) => `traces/${name}.csv`)).toEqual(Object.keys(facts.files).sort());
  });

  describe.each(names)("%s", (name) => {
    const expected = facts.files[`traces/${name}.csv`];
    const reading = readOffice(name);
    const plain = assessSampling(reading.whole.trace);
    const named = assessSampling(reading.whole.trace, { missing: NO_POSITION });

    it("has the counts, presses, intervals, gaps, path lengths and slips of the reference", () => {
      expect(
        createHash("sha256")
          .update(readFileSync(officeRemotePath(name)))
          .digest("hex"),
      ).toBe(expected.sha256);
      const got = officeRemoteFacts({ ...reading, plain, named });
      expect(Object.keys(got).length).toBeGreaterThan(30);
      expect(officeRemoteDifferences(got, expected)).toEqual([]);
    });

    it("is read without loss but for the rows that carry no position, which are counted", () => {
      expect(reading.whole.trace.t.length).toBe(expected.rows);
      expect(reading.report.samples).toEqual({
        found: expected.rows,
        kept: expected.rows - expected.sentinelRows,
        dropped: expected.sentinelRows,
      });
      expect(reading.report.reasons).toEqual(expected.sentinelRows > 0 ? { missingCode: expected.sentinelRows } : {});
      expect(reading.repaired.trace.t.length).toBe(expected.rows - expected.sentinelRows);
    });

    it("is judged by its rate: no kinematics at 9 Hz, speed at 62 Hz, jerk at neither", () => {
      const fast = name.startsWith("p07") || name.startsWith("p20");
      expect(named.rate.ok && named.rate.value).toBeGreaterThan(fast ? 60 : 7.5);
      expect(named.rate.ok && named.rate.value).toBeLessThan(fast ? 65 : 10);
      const { peakSpeed, peakDeceleration, jerk, eventTiming } = named.supports;
      expect([peakSpeed.ok, peakDeceleration.ok, jerk.ok, eventTiming.ok]).toEqual([fast, false, false, fast]);
      if (!fast) expect(peakSpeed).toMatchObject({ why: "belowResolution" });
      expect(named.timeQuantum).toMatchObject({ ok: true, value: expect.closeTo(0.001, 9) });
      expect(named.warnings.map((warning) => warning.code)).toContain("lowRate");
    });

    it("shows its rows without position as implausible jumps when the code is not named, and no others", () => {
      const coded = reading.rows.flatMap((row, i) => (row.x === NO_POSITION && row.y === NO_POSITION ? [i] : []));
      expect(coded.length).toBe(expected.sentinelRows);
      expect(plain.jumps).toEqual({ count: coded.length, indices: coded });
      expect(named.jumps.count).toBe(0);
      expect(named.missing).toBe(coded.length);
    });

    it("is refused at the first row without position when the code is named and nothing may be repaired", () => {
      const first = reading.rows.findIndex((row) => row.x === NO_POSITION);
      const read = (): unknown => parseRecording(reading.tables, { file: name, missing: NO_POSITION });
      // a heading comes before the rows, and lines count from one
      if (first >= 0) expect(read).toThrow(new RegExp(`${name}/samples:${first + 2}:`));
      else expect(read).not.toThrow();
    });

    it("lists every gap when asked to, with the holds and jumps of the reference among them", () => {
      const { gaps } = assessSampling(reading.repaired.trace, { listed: reading.rows.length });
      expect(gaps.list.length).toBe(gaps.count);
      expect(gaps.holds + gaps.missing).toBe(gaps.count);
      expect(gaps.list.filter((gap) => gap.to - gap.from > 1 + 1e-9).length).toBe(expected.gapsOver1s);
    });
  });
});
