import { notebookChart } from "../notebook-chart.js";

/** The chart of the notebook practice-block. */
export const spec = (): object => notebookChart("practice-block", "course-chart");
