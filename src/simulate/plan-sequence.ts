import { exactOrder } from "../math/exact-order.js";
import { centreAt } from "./draw-acquisition.js";
import { offsetFrom } from "./frame.js";
import type { Approach, DrawnTarget, World } from "./schedule.js";
import type { TrueSequence, Vector } from "./truth.js";

/** How far off the way another target lies that can pull, degrees. */
const PULLING_DEG = [20, 90] as const;

/** Numbers of the targets of a trial in the order in which they are to be taken, and how that was chosen; places as they are when shown. */
export function visitingOrder(world: World, targets: readonly DrawnTarget[]): { policy: TrueSequence["policy"]; order: number[] } {
  const { planner, settings, frame, hand } = world;
  const { shortest, nearest, random } = settings.planning;
  const given = Array.from(targets.keys());
  const draw = planner.uniform();
  const policy =
    draw < shortest ? "shortest" : draw < shortest + nearest ? "nearest" : draw < shortest + nearest + random ? "random" : "given";
  if (policy === "given" || settings.sequence === 0) return { policy: "given", order: given };
  if (policy === "random") return { policy, order: shuffled(world, given) };
  // flat places, the hand's first
  const places = [{ x: 0, y: 0 }, ...targets.map(({ centre }) => offsetFrom(frame, { x: hand.x, y: hand.y }, centre))];
  const step = (a: number, b: number): number => Math.sqrt((places[a]!.x - places[b]!.x) ** 2 + (places[a]!.y - places[b]!.y) ** 2);
  const order = policy === "shortest" ? exactOrder(places.length, step, "fromFirst") : nearestNext(places.length, step);
  return { policy, order: order.slice(1).map((place) => place - 1) };
}

/** Draws what the sequence makes of the movement to `target`, the one with number `i` from 0, while `others` are still open. */
export function approachTo(world: World, target: DrawnTarget, others: readonly DrawnTarget[], i: number, count: number): Approach {
  const { planner, settings } = world;
  const { overlapShare, overlapLead, hesitationShare, latencyPerBit } = settings.planning;
  // as many draws for every movement, so that one setting leaves what the others draw as it is
  const leaves = planner.uniform() < overlapShare;
  const lead = planner.uniform(overlapLead[0], overlapLead[1]);
  const hesitates = planner.uniform() < hesitationShare;
  const longer = planner.uniform(settings.planning.hesitation[0], settings.planning.hesitation[1]);
  const pulled = planner.uniform() < settings.planning.pullShare;
  if (settings.sequence === 0) return { delay: 0, hesitation: 0 };
  const toward = pulled ? pullingTarget(world, target, others) : undefined;
  const early = i > 0 && leaves;
  const hesitation = i > 0 && hesitates && !early ? longer : 0;
  return {
    delay: i === 0 ? latencyPerBit * Math.log2(count + 1) : hesitation,
    hesitation,
    ...(early && { lead }),
    ...(toward !== undefined && { toward }),
  };
}

/** Of the targets about the hand's way to `target` the one nearest to it. */
function pullingTarget({ frame, hand }: World, target: DrawnTarget, others: readonly DrawnTarget[]): DrawnTarget | undefined {
  const seen = (other: DrawnTarget): Vector => offsetFrom(frame, { x: hand.x, y: hand.y }, centreAt(other, target.shown));
  const goal = seen(target);
  const candidates = others.filter((other) => {
    const { x, y } = seen(other);
    const degrees = (Math.atan2(Math.abs(goal.x * y - goal.y * x), goal.x * x + goal.y * y) * 180) / Math.PI;
    return degrees >= PULLING_DEG[0] && degrees <= PULLING_DEG[1];
  });
  const distance = (other: DrawnTarget): number => {
    const { x, y } = seen(other);
    return (x - goal.x) ** 2 + (y - goal.y) ** 2;
  };
  return candidates.reduce<DrawnTarget | undefined>(
    (best, other) => (best === undefined || distance(other) < distance(best) ? other : best),
    undefined,
  );
}

function shuffled({ planner }: World, items: readonly number[]): number[] {
  const order = items.slice();
  for (let i = order.length - 1; i > 0; i--) {
    const j = Math.floor(planner.uniform(0, i + 1));
    [order[i], order[j]] = [order[j]!, order[i]!];
  }
  return order;
}

/** From place 0 always to the nearest left. */
function nearestNext(n: number, step: (a: number, b: number) => number): number[] {
  const order = [0];
  const left = new Set(Array.from({ length: n - 1 }, (_, i) => i + 1));
  while (left.size > 0) {
    const at = order[order.length - 1]!;
    const next = [...left].reduce((best, which) => (step(at, which) < step(at, best) ? which : best));
    order.push(next);
    left.delete(next);
  }
  return order;
}
