import type { Estimate } from "../../math/estimate.js";
import { meanEstimate } from "../../math/mean-estimate.js";
import { proportionEstimate } from "../../math/proportion-estimate.js";
import type { BestOrders, OrderChoice, OrderSummary } from "../types.js";

/** Means and shares over the choices; lengths in `unit`. */
export function orderSummary(choices: readonly OrderChoice[], unit: string, level: number): OrderSummary {
  const mean = (pick: (choice: OrderChoice) => number | undefined, of: string): Estimate =>
    meanEstimate(
      choices.flatMap((choice) => pick(choice) ?? []),
      of,
      level,
    );
  const best = (targets: number, chance: number): BestOrders => {
    const some = choices.filter((choice) => choice.targets === targets);
    return { share: proportionEstimate(some.filter((choice) => choice.best).length, some.length, level), chance };
  };
  return {
    excess: mean((choice) => choice.excess, "1"),
    regret: mean((choice) => choice.regret, unit),
    timeRegret: mean((choice) => choice.timeRegret, "s"),
    best: { ofTwo: best(2, 1 / 2), ofThree: best(3, 1 / 6) },
  };
}
