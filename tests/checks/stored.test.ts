import { describe, expect, it } from "vitest";
import { ageOfStored, readStored } from "../validation/stored.js";

describe("the stored run of the validation", () => {
  const stored = readStored("validation")!;
  const { figures, measured } = stored;
  const age = (names: readonly string[]) =>
    ageOfStored("validation", { figures: names.map((name) => ({ ...figures[0]!, name })), skipped: [] }, measured.quick, "the command");
  const names = figures.map(({ name }) => name);

  it("is not aged beside itself, whatever number of cases stands in a name", () => {
    expect(age(names.map((name) => name.replace(/\(n \d+\)/, "(n 7)")))).toEqual([]);
  });
  it("is aged by a figure more, or one fewer, and says which command mends that", () => {
    expect(age([...names, "trace/a new figure"])).toEqual([
      expect.stringMatching(/lacks 1 figure \("trace\/a new figure"\).*`the command`/),
    ]);
    expect(age(names.slice(1))).toEqual([expect.stringMatching(/still has 1 figure .*`the command`/)]);
  });
  it("does not take figures for gone whose data are absent today", () => {
    const skipped = [{ name: names[0]!, skipped: "no data" }];
    expect(ageOfStored("validation", { figures: figures.slice(2), skipped }, measured.quick, "the command")).toEqual([]);
  });
});
