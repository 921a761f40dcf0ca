import { notebookChart } from "../notebook-chart.js";

/** The chart of the notebook parquet-and-sql. */
export const spec = (): object => notebookChart("parquet-and-sql", "difficulty");
