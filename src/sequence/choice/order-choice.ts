import { exactOrder } from "../../math/exact-order.js";
import { isTrack } from "../../movement/acquisition/target-position.js";
import { shorterSide } from "../../trace/shape/target-shape.js";
import { shortestTour } from "../shortest-tour.js";
import type { SequenceTrial } from "../steps/sequence-trials.js";
import type { OrderChoice, SequenceFlag } from "../types.js";
import { EQUALLY_LONG, rankOfOrder } from "./rank-of-order.js";
import { bitsOf, type TimeLaw } from "./time-law.js";

/** Most targets for which every order is counted, and for which the fastest order is sought. */
const MOST_RANKED = 8;
const MOST_EXACT = 12;

/** The order taken through the targets that lay open at the first onset, beside the shortest; flags say why there is none. */
export function orderChoice(sequence: SequenceTrial, law: TimeLaw | null): { choice?: OrderChoice; flags: SequenceFlag[] } {
  const { open, visits, laterTargets } = sequence;
  const flags: SequenceFlag[] = laterTargets ? ["laterTargets"] : [];
  const start = visits[0]!.start;
  // places of the open targets in the order taken; a goal that is named twice is visited twice
  const left = new Set(open.keys());
  const taken: number[] = [];
  for (const { target } of visits) {
    const place = [...left].find((which) => open[which]!.target.id === target.id);
    if (place === undefined) continue;
    left.delete(place);
    taken.push(place);
  }
  if (open.some(({ target }) => isTrack(target.at))) flags.push("movingTarget");
  if (start === undefined) flags.push("noStart");
  if (open.length < 2) flags.push("noChoice");
  if (left.size > 0) flags.push("unfinished");
  if (start === undefined || flags.some((flag) => flag !== "laterTargets")) return { flags };

  const ordered = taken.map((place) => open[place]!);
  const x = Float64Array.of(start.x, ...ordered.map(({ centre }) => centre.x));
  const y = Float64Array.of(start.y, ...ordered.map(({ centre }) => centre.y));
  const step = (a: number, b: number): number => Math.sqrt((x[b]! - x[a]!) ** 2 + (y[b]! - y[a]!) ** 2);
  const { length: shortest, given: length, exact: certain } = shortestTour({ x, y });
  const exact = certain && open.length <= MOST_EXACT;
  if (!exact) flags.push("heuristic");
  const widths = ordered.map(({ target: { shape } }) => shorterSide(shape));
  const cost = (a: number, b: number): number => law!.slope * bitsOf(step(a, b), widths[b - 1]!);
  const choice: OrderChoice = {
    targets: open.length,
    length,
    shortest,
    exact,
    excess: shortest > 0 ? length / shortest - 1 : 0,
    regret: length - shortest,
    best: length <= shortest * (1 + EQUALLY_LONG),
    ...(law !== null && open.length <= MOST_EXACT && { timeRegret: Math.max(0, wayCost(x.length, cost) - fastest(x.length, cost)) }),
    ...(open.length <= MOST_RANKED && { rank: rankOfOrder(x.length, step, length) }),
  };
  return { choice, flags };
}

/** Cost of the points in their order. The intercept of the law is that of every order. */
function wayCost(n: number, cost: (a: number, b: number) => number): number {
  let sum = 0;
  for (let i = 1; i < n; i++) sum += cost(i - 1, i);
  return sum;
}

function fastest(n: number, cost: (a: number, b: number) => number): number {
  const order = exactOrder(n, cost, "fromFirst");
  return wayCost(n, (a, b) => cost(order[a]!, order[b]!));
}
