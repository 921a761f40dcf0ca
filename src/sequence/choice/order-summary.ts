import type { Estimate } from "../../math/estimate.js";
import { meanEstimate } from "../../math/mean-estimate.js";
import { proportionEstimate } from "../../math/proportion-estimate.js";
import type { OrderChoice } from "../types.js";

/** How often the best of few orders was taken. */
export interface BestOrders {
  readonly share: Estimate;
  /** Share that picking at random would reach: 1/2 of two orders, 1/6 of six. */
  readonly chance: number;
}

/** The orders taken, in figures. Unit of analysis: the sequence. */
export interface OrderSummary {
  /** Mean excess over the shortest way, as a share of it. */
  readonly excess: Estimate;
  /** Mean length beyond the shortest way, in the space's unit. */
  readonly regret: Estimate;
  /** Mean time beyond the fastest order by the law of movement time, seconds. */
  readonly timeRegret: Estimate;
  /** Sequences of exactly two and of exactly three targets. */
  readonly best: { readonly ofTwo: BestOrders; readonly ofThree: BestOrders };
}

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
