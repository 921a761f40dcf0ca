import { notebookChart } from "../notebook-chart.js";

/** The chart of the notebook many-recordings. */
export const spec = (): object => notebookChart("many-recordings", "group-chart");
