// Source: NIST Statistical Reference Datasets, univariate summary statistics: nine data sets with certified mean, SD and lag-one
// autocorrelation, as stored in the shared reference table learning/nist-univariate.json. The digits of pi differ from pi at one place; the
// figures belong to the digits as distributed.
import { describe, expect, it } from "vitest";
import { lagOne } from "../../src/learning/trend/lag-one.js";
import { meanAndSd } from "../../src/math/mean-and-sd.js";
import { readReference, SHARED_ABSENT, within } from "../shared.js";

const table = readReference("learning/nist-univariate.json");

describe.skipIf(!table)(`mean, SD and autocorrelation against NIST's certified values (skipped: ${SHARED_ABSENT})`, () => {
  it("has the nine data sets", () => expect(table!.cases.length).toBe(9));

  it.each(table?.cases ?? [])("$name", ({ input, expected, tolerance }) => {
    const values = Float64Array.from(input.values ?? [...input.digits], Number);
    const { mean, sd } = meanAndSd(values);
    const got = { mean, sd, lag1Autocorrelation: lagOne(values)! };
    for (const [name, value] of Object.entries(got)) expect(within(value, expected[name], tolerance), `${name}: ${value}`).toBe(true);
  });
});
