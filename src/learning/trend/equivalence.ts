import { studentTail } from "../../math/student-tail.js";

/**
 * The larger p of two one-sided t tests: one against a truth at or below -`margin`, one against a truth at or above `margin`. Below 0.05 if
 * and only if the 90 % interval of the estimate lies inside +-`margin`. An estimate without error gives 0 inside, 1 outside and on the
 * margin.
 */
export function equivalence(estimate: number, standardError: number, df: number, margin: number): number {
  // the nearer margin decides
  const inside = margin - Math.abs(estimate);
  if (standardError === 0) return inside > 0 ? 0 : 1;
  const beyond = studentTail(inside / standardError, df) / 2;
  return inside > 0 ? beyond : 1 - beyond;
}
