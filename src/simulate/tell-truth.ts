import { centreAt } from "./draw-acquisition.js";
import { type Frame, offsetFrom } from "./frame.js";
import type { JudgedPress } from "./judge-press.js";
import type { DrawnMovement } from "./schedule.js";
import type { TrueError, TrueMovement, Vector } from "./truth.js";

/** The plain account of one movement, given its judged presses and whether the border held the pointer. */
export function tellTruth(
  trial: string,
  target: string,
  /** Id of the target that pulled. */
  pulledToward: string | undefined,
  drawn: DrawnMovement,
  presses: readonly JudgedPress[],
  frame: Frame,
  held: boolean,
  /** Whether there is a display to be late. */
  displayed: boolean,
): TrueMovement {
  const { plan, recovery, go, end, start, approach } = drawn;
  const { width, velocity } = drawn.target;
  const centre = centreAt(drawn.target, plan?.onset ?? go);
  const away = offsetFrom(frame, centre, start);
  const amplitude = Math.sqrt(away.x * away.x + away.y * away.y);
  const turned = (error: Vector): TrueError => inMovementFrame(error, away, amplitude);
  const first = presses[0];
  const last = presses[presses.length - 1];
  const components = plan === undefined ? [] : recovery === undefined ? plan.components : [...plan.components, recovery];
  return {
    trial,
    target,
    go,
    ...(plan !== undefined
      ? { onset: plan.onset, primaryEnd: plan.primaryEnd, stop: plan.stop, latency: plan.onset - go, bell: plan.bell }
      : {}),
    ...(first !== undefined && last !== undefined ? { press: first.t, tUp: last.tUp, slip: last.slip } : {}),
    end,
    outcome: outcomeOf(presses),
    pure: plan?.pure ?? false,
    amplitude,
    width,
    directionDeg: (Math.atan2(0 - away.y, 0 - away.x) * 180) / Math.PI,
    start,
    centre,
    ...(velocity.x !== 0 || velocity.y !== 0 ? { velocity } : {}),
    components,
    ...(plan !== undefined ? { primaryError: turned(plan.primaryError), stopError: turned(plan.stopError) } : {}),
    ...(first !== undefined ? { pressError: turned(first.error) } : {}),
    ...(pulledToward !== undefined && { pulledToward }),
    ...(approach.hesitation > 0 && { hesitation: approach.hesitation }),
    ...(displayed && { delays: drawn.delays }),
    flags: flagsOf(drawn, presses, held),
  };
}

/** `error` along the axis that leads from the hand, which lies at `away` from the centre, and to the left of it. */
function inMovementFrame(error: Vector, away: Vector, amplitude: number): TrueError {
  const ux = amplitude > 0 ? -away.x / amplitude : 1;
  const uy = amplitude > 0 ? -away.y / amplitude : 0;
  return { along: error.x * ux + error.y * uy + 0, across: error.x * uy - error.y * ux + 0 };
}

function outcomeOf(presses: readonly JudgedPress[]): TrueMovement["outcome"] {
  if (presses.length === 0) return "timeout";
  if (!presses[presses.length - 1]!.inside) return "miss";
  return presses.length === 1 ? "hit" : "recovered";
}

function flagsOf({ plan, go }: DrawnMovement, presses: readonly JudgedPress[], held: boolean): TrueMovement["flags"] {
  const flags: TrueMovement["flags"][number][] = [];
  if (plan === undefined) return ["noMovement"];
  if (plan.onset < go) flags.push("beforeGo");
  if (plan.reachEnd > plan.primaryEnd) flags.push("clutch");
  if (presses.length > 0 && presses[0]!.t < plan.stop) flags.push("pressedInMotion");
  if (held) flags.push("edge");
  return flags;
}
