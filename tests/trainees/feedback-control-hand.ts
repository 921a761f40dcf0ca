/** Step of the simulation, seconds. */
export const STEP = 0.001;
/** Time constant of each of the two muscle filters, seconds. */
const MUSCLE = 0.02;
/** Stiffness that holds the hand to where the filtered command puts it, as an angular frequency, 1/s. */
const STIFFNESS = 28;

/** One axis of a point mass on a spring whose rest the command moves, through two first-order filters. */
export interface HandAxis {
  position: number;
  velocity: number;
  /** The command after one filter and after both. */
  excitation: number;
  activation: number;
}

export function restingAt(position: number): HandAxis {
  return { position, velocity: 0, excitation: position, activation: position };
}

/** One step under `command`; `noise` is a share by which the driving force is off in this step. */
export function advance(axis: HandAxis, command: number, damping: number, noise: number): void {
  axis.excitation += (STEP / MUSCLE) * (command - axis.excitation);
  axis.activation += (STEP / MUSCLE) * (axis.excitation - axis.activation);
  const force = STIFFNESS * STIFFNESS * (axis.activation - axis.position) * (1 + noise);
  axis.velocity += STEP * (force - 2 * damping * STIFFNESS * axis.velocity);
  axis.position += STEP * axis.velocity;
}

/** Moves the hand and all it is driven to by `by`. */
export function displace(axis: HandAxis, by: number): void {
  axis.position += by;
  axis.excitation += by;
  axis.activation += by;
}

/** A command that goes from 0 to a displacement as half a cosine: over `duration` steps from the one after `start`. */
export interface Ramp {
  readonly start: number;
  readonly duration: number;
  readonly dx: number;
  readonly dy: number;
}
