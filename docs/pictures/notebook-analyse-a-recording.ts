import { notebookChart } from "../notebook-chart.js";

/** The chart of the notebook analyse-a-recording. */
export const spec = (): object => notebookChart("analyse-a-recording", "budget-chart");
