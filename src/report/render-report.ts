import { requireObject, requireOneOf, show } from "../math/require.js";
import { htmlForm, type ReportPicture } from "./render/html-form.js";
import { reportDocument } from "./render/report-document.js";
import { textForm } from "./render/text-form.js";
import type { PracticeReview } from "./types.js";

const WHERE = "renderReport";

/** Options of `renderReport`. */
export interface RenderReportOptions {
  /** `"html"` (default): one file that opens without a network and prints; `"text"`: lines of at most 100 characters for a terminal. */
  readonly form?: "html" | "text";
  /** Charts drawn from `chartSpecs`, as SVG texts; shown in HTML, left out of text. Default none. */
  readonly pictures?: readonly ReportPicture[];
}

/**
 * One person's review as a page to read: the first line says dates, numbers, equipment and what cannot be said; then what costs most, whether it is real, whether
 * it is the equipment, what next, when to stop, the figures behind the answers, and how they were computed.
 *
 * The HTML holds everything in one file: no script, no address, a content policy that lets nothing in, names and texts escaped (characters that would turn the
 * direction of the text or act in a terminal are replaced). Headings, tables with captions and scopes, text alternatives; black on white, for paper too.
 *
 * @param review - a result of `reviewPractice`
 * @param options - see `RenderReportOptions`
 * @returns the page, or the text with a line end
 * @throws TypeError or RangeError if the review or an option is not as described
 * @see HTML Living Standard (escaping), Content Security Policy Level 3, WCAG 2.2 (tables, text alternatives, contrast): recalled
 * @example
 * ```ts
 * const { recording } = simulateRecording({ seed: 7, movements: 30 });
 * const session = { person: "<b>Ada", startedAt: "2026-03-02T18:00:00Z", equipment: { id: "desk" }, recordings: [recording] };
 * const page = renderReport(reviewPractice([summarizeSession(session)]));
 * page.includes("<title>Pointing practice of &lt;b&gt;Ada</title>"); // => true
 * ```
 */
export function renderReport(review: PracticeReview, options: RenderReportOptions = {}): string {
  requireObject(WHERE, "review", review);
  if (review.header?.library !== "aimed-movement" || review.answers === undefined) {
    throw new TypeError(`${WHERE}: review must be a result of reviewPractice, got ${show(Object.keys(review))}`);
  }
  requireObject(WHERE, "options", options);
  const { form = "html", pictures = [] } = options;
  requireOneOf(WHERE, "options.form", form, ["html", "text"]);
  if (!Array.isArray(pictures)) throw new TypeError(`${WHERE}: options.pictures must be an array of pictures, got ${show(pictures)}`);
  for (const [i, picture] of (pictures as readonly ReportPicture[]).entries()) {
    requireObject(WHERE, `options.pictures[${i}]`, picture);
    for (const field of ["title", "description", "svg"] as const) {
      if (typeof picture[field] !== "string") {
        throw new TypeError(`${WHERE}: options.pictures[${i}].${field} must be a text, got ${show(picture[field])}`);
      }
    }
  }
  const report = reportDocument(review);
  return form === "html" ? htmlForm(report, pictures) : textForm(report);
}
