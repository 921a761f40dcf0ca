import { reliability } from "aimed-movement";

/** Three invented sessions of ten people, and the changes between neighbouring sessions with their limits of agreement. */
export function spec(): object {
  const levels = [560, 590, 615, 640, 655, 670, 700, 725, 750, 790];
  const noise = [6, -14, 9, -5, 17, -11, 3, 12, -9, -2, -13, 8, 15, -7, -4, 11, -16, 5, 10, -12, 7, 4, -18, 13, -6, 14, 2, -8, -3, 9];
  const common = [0, -22, -25];
  const scores = levels.map((level, person) =>
    common.map((shift, session) => level + shift + noise[(7 * person + 11 * session) % noise.length]!),
  );
  const { typicalError, icc, pairs } = reliability(scores, { unit: "ms" });
  const agreement = icc["2,1"];
  if (!typicalError.ok || !agreement.ok) throw new Error("not given");
  const lines = scores.flatMap((row, person) => row.map((value, session) => ({ person, session: session + 1, value })));
  const name = (at: number): string => `session ${at + 1} to ${at + 2}`;
  const changes = pairs.flatMap((_, at) =>
    scores.map((row) => ({ pair: name(at), mean: (row[at]! + row[at + 1]!) / 2, change: row[at + 1]! - row[at]! })),
  );
  const limits = pairs.flatMap(({ change, limits: { low, high } }, at) => {
    if (!change.ok || !low.ok || !high.ok) throw new Error("not given");
    return [
      { pair: name(at), at: change.value, what: "mean change" },
      { pair: name(at), at: low.value, what: "limit of agreement" },
      { pair: name(at), at: high.value, what: "limit of agreement" },
    ];
  });
  const y = { type: "quantitative", title: "change, ms", scale: { domain: [-70, 40] } } as const;
  return {
    title: `Ten invented people: typical error ${typicalError.value.toFixed(0)} ms, ICC(2,1) ${agreement.value.toFixed(2)}`,
    hconcat: [
      {
        width: 200,
        height: 230,
        data: { values: lines },
        mark: { type: "line", point: true, opacity: 0.8 },
        encoding: {
          x: { field: "session", type: "ordinal", title: "session", axis: { labelAngle: 0 } },
          y: { field: "value", type: "quantitative", title: "movement time, ms", scale: { zero: false } },
          detail: { field: "person" },
        },
      },
      {
        data: { values: [...changes, ...limits] },
        facet: { column: { field: "pair", type: "nominal", title: null } },
        spec: {
          width: 180,
          height: 230,
          layer: [
            {
              transform: [{ filter: "isValid(datum.change)" }],
              mark: "point",
              encoding: {
                x: { field: "mean", type: "quantitative", title: "mean of both, ms", scale: { zero: false } },
                y: { field: "change", ...y },
              },
            },
            {
              transform: [{ filter: "isValid(datum.at)" }],
              mark: { type: "rule", strokeWidth: 1.5 },
              encoding: {
                y: { field: "at", ...y },
                strokeDash: { field: "what", type: "nominal", title: null, legend: { orient: "bottom" } },
                color: { field: "what", type: "nominal", title: null },
              },
            },
          ],
        },
      },
    ],
  };
}
