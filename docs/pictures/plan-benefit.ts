/** Mean gain under the plan over that of equal parts: `npm run validation`, names beginning `practice/plan`, 400 simulated trainees each, exponential law, 60 minutes. */
const GAINS = {
  "primary movement": { true: [1.048, 1.02], noisy: [1.036, 1.016] },
  corrections: { true: [1.038, 1.015], noisy: [1.027, 1.012] },
  "stop and press": { true: [1.006, 1.002], noisy: [1.003, 1.002] },
  "next target": { true: [1.024, 1.01], noisy: [1.018, 1.008] },
  none: { true: [1.007, 1.002], noisy: [1.005, 1.001] },
  "primary movement, another named": { wrong: [0.96, 0.974] },
};
const TELLERS: Readonly<Record<string, string>> = { true: "always right", noisy: "wrong in 10 %, silent in 15 %", wrong: "always wrong" };
const WEEKS = ["after 2 weeks", "after 6 weeks"];

/** What following the plan brought simulated trainees, by planted weakness and quality of the diagnosis. */
export function spec(): object {
  const values = Object.entries(GAINS).flatMap(([weakness, tellers]) =>
    Object.entries(tellers).flatMap(([teller, gains]) =>
      gains.map((gain, i) => ({ weakness, diagnosis: TELLERS[teller], gain: 100 * (gain - 1), weeks: WEEKS[i] })),
    ),
  );
  return {
    title: "Gain under the plan beside equal parts, 400 simulated trainees each",
    data: { values },
    facet: { column: { field: "weeks", type: "nominal", title: null } },
    spec: {
      width: 240,
      height: 190,
      layer: [
        { data: { values: [{ at: 0 }] }, mark: { type: "rule", color: "#6b7280" }, encoding: { x: { datum: 0, type: "quantitative" } } },
        {
          mark: { type: "point", filled: true, size: 70 },
          encoding: {
            y: { field: "weakness", type: "nominal", title: "planted weakness", sort: Object.keys(GAINS), axis: { labelLimit: 260 } },
            x: { field: "gain", type: "quantitative", title: "more gained than with equal parts, %", scale: { domain: [-5, 6] } },
            color: {
              field: "diagnosis",
              type: "nominal",
              title: "diagnosis",
              sort: Object.values(TELLERS),
              legend: { orient: "bottom", labelLimit: 260 },
            },
            shape: { field: "diagnosis", type: "nominal", title: "diagnosis", sort: Object.values(TELLERS) },
          },
        },
      ],
    },
  };
}
