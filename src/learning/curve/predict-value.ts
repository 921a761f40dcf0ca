import type { CurveBandPoint } from "./curve-types.js";
import { type FittedCurve, varianceAlong } from "./fitted-curve.js";

/** The law at an amount of practice with its two intervals (delta method); `undefined` where the covariance is not known or a number overflows. */
export function curvePredictor(curve: FittedCurve): (practice: number) => CurveBandPoint | undefined {
  const { columns, model, errors, solution, reach } = curve;
  const gradient = new Float64Array(model.letters.length);
  const weight = columns.weightSum / columns.n;
  return (practice) => {
    const value = model.value(practice, solution.parameters) + 0;
    model.gradient(practice, solution.parameters, gradient);
    const own = varianceAlong(curve, gradient);
    const scatter = curve.variance / weight;
    let confidence: [number, number];
    let prediction: [number, number];
    if (errors === "lognormal") {
      const share = (variance: number): [number, number] => {
        const factor = Math.exp(reach * Math.sqrt(variance));
        return [value / factor, value * factor];
      };
      confidence = share(own / (value * value));
      prediction = share(own / (value * value) + scatter);
    } else {
      const about = (variance: number): [number, number] => [value - reach * Math.sqrt(variance), value + reach * Math.sqrt(variance)];
      const within = ([low, high]: [number, number]): [number, number] =>
        errors === "binomial" ? [Math.min(Math.max(0, low), 1), Math.max(Math.min(1, high), 0)] : [low, high];
      confidence = within(about(own));
      prediction = within(about(own + (errors === "binomial" ? Math.max(0, value * (1 - value)) / weight : scatter)));
    }
    const spread = prediction[1] - prediction[0] + confidence[1] - confidence[0] + value;
    return spread - spread === 0 ? { practice, value, confidence, prediction } : undefined;
  };
}
