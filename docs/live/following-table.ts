// The table of a moving target that was followed.
import type { Pursuit } from "../../src/pursuit/types.js";
import type { ReportTable } from "../../src/report/render/document.js";
import { sayValue } from "../../src/report/review/say.js";
import { estimateWords, PURSUIT_WORDS } from "./words.js";

export function followingTable({
  samples,
  motion,
  error,
  onTarget,
  lag,
  gain,
  explained,
  catchUp,
  response,
  warnings,
}: Pursuit): ReportTable {
  const shown = warnings.filter((warning) => warning !== "fewChanges");
  return {
    caption: `Following the moving target, ${samples.duration.toFixed(1)} s after the first stay on it`,
    head: ["figure", "value"],
    rows: [
      ["mean speed of the target", `${sayValue(motion.meanSpeed, "px/s")}, ${sayValue(motion.widthsPerSecond, "widths/s")}`],
      ["root mean square distance from the centre", estimateWords(error.rms)],
      ["the same in target widths", estimateWords(error.inWidths.rms)],
      ["time on the target", estimateWords(onTarget.share)],
      ["lag, by the correlation of velocities", estimateWords(lag.byCorrelation)],
      ["distance once lateness is forgiven", estimateWords(lag.rmsWithoutLag)],
      ["gain: share of the target's velocity", estimateWords(gain)],
      ["pointer motion that the target explains", estimateWords(explained)],
      ["bandwidth, horizontally", estimateWords(response.x.bandwidth)],
      ["bandwidth, vertically", estimateWords(response.y.bandwidth)],
      ["catch-up movements", estimateWords(catchUp.rate)],
      ["beware", shown.length === 0 ? "nothing found" : shown.map((warning) => PURSUIT_WORDS[warning]).join("; ")],
    ],
  };
}
