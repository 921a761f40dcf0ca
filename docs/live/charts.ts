// Vega and Vega-Lite, loaded only when there is something to draw.
import { createPainter } from "../../src/cli/draw-pictures.js";

Object.assign(globalThis, { aimedMovementPainter: createPainter });
