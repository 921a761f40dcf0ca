import type { ChartSpec } from "../report/index.js";
import type { ReportPicture } from "../report/render/html-form.js";

/** Draws charts as SVG, where Vega is installed beside this package; `undefined` where it is not. */
export async function createPainter(): Promise<((charts: readonly ChartSpec[]) => Promise<ReportPicture[]>) | undefined> {
  try {
    const [{ parse, View }, { compile }] = await Promise.all([import("vega"), import("vega-lite")]);
    return (charts) =>
      Promise.all(
        charts.map(async ({ title, description, spec }) => {
          const view = new View(parse(compile(spec as unknown as Parameters<typeof compile>[0]).spec), { renderer: "none" });
          const svg = await view.toSVG();
          view.finalize();
          return { title, description, svg };
        }),
      );
  } catch {
    return undefined;
  }
}
