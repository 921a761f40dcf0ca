/** Columns of the table of acquisitions; apart from what fills them, which needs the library. */
export const ACQUISITION_HEAD: readonly string[] = [
  "target",
  "outcome",
  "whole",
  "latency",
  "primary",
  "corrections",
  "stop to press",
  "press along",
  "press across",
  "remarks",
];
