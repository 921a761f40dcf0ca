import type { ChartSpec } from "../report/index.js";
import type { ReportPicture } from "../report/render/html-form.js";
import { messageOf } from "./streams.js";

/** Charts that were drawn, and why others were not. */
export interface Painted {
  readonly pictures: readonly ReportPicture[];
  readonly failures: readonly string[];
}

/** Draws charts as SVG, where Vega is installed beside this package; `undefined` where it is not. */
export async function createPainter(): Promise<((charts: readonly ChartSpec[]) => Promise<Painted>) | undefined> {
  try {
    const [{ Error: errorsOnly, loader, logger, parse, View }, { compile }] = await Promise.all([import("vega"), import("vega-lite")]);
    // charts carry their data: nothing is fetched, whatever a specification says
    const closed = { ...loader(), load: () => Promise.reject(new Error("charts fetch nothing")) };
    const draw = async ({ title, description, spec }: ChartSpec): Promise<ReportPicture> => {
      const quiet = logger(errorsOnly);
      const { spec: compiled } = compile(spec as unknown as Parameters<typeof compile>[0], { logger: quiet });
      const view = new View(parse(compiled), { renderer: "none", logger: quiet, loader: closed });
      try {
        return { title, description, svg: await view.toSVG() };
      } finally {
        view.finalize();
      }
    };
    return async (charts) => {
      const drawn = await Promise.allSettled(charts.map(draw));
      return {
        pictures: drawn.flatMap((one) => (one.status === "fulfilled" ? [one.value] : [])),
        failures: drawn.flatMap((one, i) =>
          one.status === "rejected" ? [`the chart ${JSON.stringify(charts[i]!.title)} could not be drawn: ${messageOf(one.reason)}`] : [],
        ),
      };
    };
  } catch {
    return undefined;
  }
}
