import type { DelayPayment } from "../types.js";

/** How often each measure of an acquisition with `loops` corrections, begun on sight in the share `responses`, pays a delay from hand to eye. */
export function delayPayments(loops: number, responses = 1): readonly DelayPayment[] {
  return [
    { measure: "latency", times: [responses, responses], reason: "nothing is answered before it is seen" },
    { measure: "primaryTime", times: [0, 0], reason: "it is under way before anything of it could be seen" },
    { measure: "primaryError", times: [0, 0], reason: "it is aimed before anything of it could be seen" },
    { measure: "correctionTime", times: [loops, loops], reason: "each correction answers what was seen" },
    { measure: "verificationTime", times: [0, 1], reason: "the press may wait for the stop to be seen, or not" },
    { measure: "acquisitionTime", times: [responses + loops, responses + 1 + loops], reason: "the sum of latency, corrections and press" },
    { measure: "pursuitLag", times: [1, 1], reason: "the target is followed where it was seen" },
  ];
}
