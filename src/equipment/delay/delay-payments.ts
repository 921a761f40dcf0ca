import type { DelayPayment } from "../types.js";

/** How often each measure of an acquisition with `loops` corrections pays a delay from hand to eye. */
export function delayPayments(loops: number): readonly DelayPayment[] {
  return [
    { measure: "latency", times: [1, 1], reason: "nothing is answered before it is seen" },
    { measure: "primaryTime", times: [0, 0], reason: "it is under way before anything of it could be seen" },
    { measure: "primaryError", times: [0, 0], reason: "it is aimed before anything of it could be seen" },
    { measure: "correctionTime", times: [loops, loops], reason: "each correction answers what was seen" },
    { measure: "verificationTime", times: [0, 1], reason: "the press may wait for the stop to be seen, or not" },
    { measure: "acquisitionTime", times: [1 + loops, 2 + loops], reason: "the sum of latency, corrections and press" },
    { measure: "pursuitLag", times: [1, 1], reason: "the target is followed where it was seen" },
  ];
}
