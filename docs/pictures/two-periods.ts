import { compare } from "aimed-movement";

/** Four pairs of periods, each with its sessions, and the change with both intervals against the smallest worthwhile change. */
export function spec(): object {
  const pairs = [
    { name: "A", before: [712, 741, 690, 722, 705, 733, 698], after: [668, 655, 690, 661, 679, 652, 671] },
    { name: "B", before: [708, 694, 715, 702, 711, 697, 705], after: [704, 699, 708, 697, 712, 702, 700] },
    { name: "C", before: [731, 668, 752, 694, 711], after: [702, 655, 738, 681, 690] },
    { name: "D", before: [701, 703, 699, 702, 700, 704, 702], after: [696, 694, 697, 695, 693, 696, 695] },
  ].map((pair) => ({ ...pair, result: compare(pair.before, pair.after, { unit: "ms" }) }));
  const rows = pairs.map(({ name, result }) => {
    const { change, equivalence, verdict, size } = result;
    if (!change.ok || change.interval === undefined || equivalence === null) throw new Error("not given");
    const said =
      size === "trivial" && verdict !== "equivalent" ? `${verdict}, but trivial` : verdict === "cannotTell" ? "cannot tell" : verdict;
    return {
      pair: `${name}: ${said}`,
      change: change.value,
      low: change.interval[0],
      high: change.interval[1],
      in: equivalence.interval[0],
      out: equivalence.interval[1],
    };
  });
  const sessions = pairs.flatMap(({ name, before, after }, p) =>
    [...before, ...after].map((value, i) => ({
      pair: rows[p]!.pair,
      name,
      session: i + 1,
      value,
      period: i < before.length ? "before" : "after",
    })),
  );
  const y = { field: "pair", type: "nominal", title: null } as const;
  return {
    title: "Invented sessions of four people, and what they show at a worthwhile change of 2 %",
    hconcat: [
      {
        width: 260,
        height: 300,
        data: { values: sessions },
        mark: { type: "point", size: 40 },
        encoding: {
          y: { ...y, axis: { labelLimit: 260 } },
          yOffset: { field: "period", type: "nominal", sort: ["before", "after"] },
          x: { field: "value", type: "quantitative", title: "session mean, ms", scale: { zero: false, domain: [640, 760] } },
          color: { field: "period", type: "nominal", title: null, sort: ["before", "after"], legend: { orient: "bottom" } },
          shape: { field: "period", type: "nominal", title: null, sort: ["before", "after"] },
        },
      },
      {
        width: 300,
        height: 300,
        layer: [
          {
            data: { values: [{ from: -2, to: 2 }] },
            mark: { type: "rect", color: "#dfe7ef" },
            encoding: { x: { field: "from", type: "quantitative" }, x2: { field: "to" } },
          },
          {
            data: { values: [{ at: 0 }] },
            mark: { type: "rule", color: "#6b7280" },
            encoding: { x: { field: "at", type: "quantitative" } },
          },
          {
            data: { values: rows },
            mark: { type: "rule", strokeWidth: 1.5 },
            encoding: {
              y: { ...y, axis: null },
              x: { field: "low", type: "quantitative", title: "change, % (thin 95 %, thick 90 %)", scale: { domain: [-12, 8] } },
              x2: { field: "high" },
            },
          },
          {
            data: { values: rows },
            mark: { type: "rule", strokeWidth: 5 },
            encoding: { y: { ...y, axis: null }, x: { field: "in", type: "quantitative" }, x2: { field: "out" } },
          },
          {
            data: { values: rows },
            mark: { type: "point", color: "white", stroke: "#1d232a", strokeWidth: 1.5, size: 60 },
            encoding: { y: { ...y, axis: null }, x: { field: "change", type: "quantitative" } },
          },
        ],
      },
    ],
  };
}
