// The library in a worker: the page stays free while it computes.
import { type Analyzer, createAnalyzer } from "../../src/movement/index.js";
import { formatRecording, parseRecording } from "../../src/trace/index.js";
import { acquisitionCells } from "./acquisition-table.js";
import { analysisOf } from "./analysis.js";
import { simulatedSession } from "./example.js";
import type { Answer, Request } from "./messages.js";

let analyzer: Analyzer | undefined;

addEventListener("message", ({ data }: MessageEvent<Request>) => {
  try {
    const said = answer(data);
    if (said !== undefined) postMessage(said);
  } catch (error) {
    postMessage({ kind: "refused", why: error instanceof Error ? error.message : String(error) } satisfies Answer);
  }
});

function answer(request: Request): Answer | undefined {
  switch (request.kind) {
    case "begin":
      analyzer = createAnalyzer(request.space);
      return undefined;
    case "chunk":
      return { kind: "acquisitions", lines: analyzer!.push(request.chunk).map(acquisitionCells) };
    case "end":
      return { kind: "acquisitions", lines: analyzer!.flush().map(acquisitionCells) };
    case "analyse":
      return { kind: "analysis", analysis: analysisOf(request.session) };
    case "write":
      return { kind: "written", text: formatRecording(request.session) };
    case "read":
      return { kind: "session", session: parseRecording(request.text, { file: request.name }).session, from: request.name };
    case "simulate":
      return { kind: "session", session: simulatedSession(1), from: "the simulation" };
  }
}
