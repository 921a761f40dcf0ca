import { notebookChart } from "../notebook-chart.js";

/** The chart of the notebook fitts-study. */
export const spec = (): object => notebookChart("fitts-study", "figure");
