import { notebookChart } from "../notebook-chart.js";

/** The chart of the notebook power-by-simulation. */
export const spec = (): object => notebookChart("power-by-simulation", "power-chart");
