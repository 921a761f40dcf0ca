// What page and worker say to each other.
import type { Chunk, Session, Space } from "../../src/trace/types.js";
import type { Analysis } from "./analysis.js";

export type Request =
  /** A recording begins; its chunks follow, and then its end. */
  | { readonly kind: "begin"; readonly space: Space }
  | { readonly kind: "chunk"; readonly chunk: Chunk }
  | { readonly kind: "end" }
  | { readonly kind: "analyse"; readonly session: Session }
  | { readonly kind: "write"; readonly session: Session }
  | { readonly kind: "read"; readonly name: string; readonly text: string }
  | { readonly kind: "simulate" };

export type Answer =
  /** Acquisitions that became final, as lines of the table. */
  | { readonly kind: "acquisitions"; readonly lines: readonly (readonly string[])[] }
  | { readonly kind: "analysis"; readonly analysis: Analysis }
  | { readonly kind: "written"; readonly text: string }
  /** A session that was read or simulated. */
  | { readonly kind: "session"; readonly session: Session; readonly from: string }
  /** What was asked for cannot be done. */
  | { readonly kind: "refused"; readonly why: string };
