import type { Budget } from "../../movement/types.js";
import { INK } from "./theme.js";

/** One part of a time budget as it is drawn. */
export interface BudgetStretch {
  readonly key: keyof Budget;
  readonly label: string;
  readonly shade: string;
}

/** The parts of a time budget in the order of a movement, the first under a name of the chart's own; lightness alternates, so that neighbours are told apart without colour. */
export function budgetStretches(latency: string): readonly BudgetStretch[] {
  return [
    { key: "latency", label: latency, shade: INK.pale },
    { key: "primary", label: "primary", shade: INK.dark },
    { key: "correction", label: "correction", shade: INK.light },
    { key: "clutch", label: "lifting", shade: INK.paper },
    { key: "verification", label: "stop to press", shade: INK.middle },
    { key: "recovery", label: "after a miss", shade: INK.band },
  ];
}

/** How a bar of these stretches is filled and explained. */
export function stretchFill(field: string, stretches: readonly BudgetStretch[]): object {
  const domain = stretches.map(({ label }) => label);
  return {
    field,
    type: "nominal",
    sort: domain,
    scale: { domain, range: stretches.map(({ shade }) => shade) },
    legend: { title: "from left to right", columns: 3, symbolStrokeColor: INK.dark },
  };
}
