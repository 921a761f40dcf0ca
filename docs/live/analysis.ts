// A session to what the page shows of it.
import { type ChartSpec, chartSpecs, summarizeSession } from "../../src/report/index.js";
import type { ReportTable } from "../../src/report/render/document.js";
import { sayEstimate } from "../../src/report/review/say.js";
import type { SessionSummary } from "../../src/report/types.js";
import type { Session } from "../../src/trace/types.js";
import { acquisitionTable } from "./acquisition-table.js";
import { acquisitionsSentence, basisTable } from "./basis-table.js";
import { followingTable } from "./following-table.js";
import { pointingTables, timeTable } from "./pointing-tables.js";

export interface Analysis {
  /** The main figures in a sentence or two. */
  readonly headline: string;
  readonly tables: readonly ReportTable[];
  readonly acquisitions: ReportTable;
  readonly charts: readonly ChartSpec[];
}

export function analysisOf(session: Session): Analysis {
  const summary = summarizeSession(session);
  const { rows, pursuits } = summary;
  const pointing = rows.length > 0 ? pointingTables(summary, session) : undefined;
  const followed = pursuits.filter(({ status }) => status === "ok");
  const sentences = [
    `${acquisitionsSentence(summary) || "No trial"}.`,
    ...(pointing ? [`Throughput ${sayEstimate(pointing.throughput)}.`] : []),
    ...followed.map(({ lag }) => `Lag ${sayEstimate(lag.byCorrelation)}.`),
  ];
  return {
    headline: sentences.join(" "),
    tables: [basisTable(summary), ...(pointing ? [...pointing.tables, timeTable(summary)] : []), ...followed.map(followingTable)],
    acquisitions: acquisitionTable(rows),
    charts: chartsOf(session, summary),
  };
}

function chartsOf(session: Session, { rows, pursuits }: SessionSummary): ChartSpec[] {
  const blocks = [...new Set(rows.map(({ block }) => block))];
  const [followed] = pursuits.filter(({ response }) => response.x.frequencies.length > 0);
  const typical = typicalRow(session, rows);
  return chartSpecs({
    ...(rows.length > 0 && {
      endpoints: rows,
      timeBudget: blocks.map((block) => ({ label: block, rows: rows.filter((row) => row.block === block) })),
    }),
    ...(typical && { profile: typical }),
    ...(followed && { pursuit: followed.response.x }),
  });
}

/** The acquisition of median time among those with nothing to remark, and its recording. */
function typicalRow(
  { recordings }: Session,
  rows: SessionSummary["rows"],
): { recording: Session["recordings"][number]; row: SessionSummary["rows"][number] } | undefined {
  const whole = ({ times }: SessionSummary["rows"][number]): number => times.end - times.go;
  const plain = rows.filter(({ flags, outcome }) => flags.length === 0 && outcome === "hit").sort((a, b) => whole(a) - whole(b));
  const row = plain[plain.length >> 1];
  const recording = recordings.find(
    ({ trace }) => row !== undefined && trace.t[0]! <= row.times.go && trace.t[trace.t.length - 1]! >= row.times.end,
  );
  return row === undefined || recording === undefined ? undefined : { recording, row };
}
