/** Even steps of the logarithm of time between looks. */
const STEPS = 160;
/** Halvings of the bracket: to a hundredth of a millionth of a millionth of its width. */
const HALVINGS = 46;

/** The smallest time in `[low, high]` at which `holds`, found between two of `steps` looks and halved from there; `undefined` where it never does. */
export function firstTime(holds: (t: number) => boolean, low: number, high: number, steps: number = STEPS): number | undefined {
  if (holds(low)) return low;
  let before = low;
  for (let k = 1; k <= steps; k++) {
    const t = k === steps ? high : low * (high / low) ** (k / steps);
    if (holds(t)) return halve(holds, before, t);
    before = t;
  }
  return undefined;
}

/** The largest time in `[low, high]` at which `holds`; `undefined` where it never does. */
export function lastTime(holds: (t: number) => boolean, low: number, high: number, steps: number = STEPS): number | undefined {
  // the same walk on the reciprocal of time
  const found = firstTime((inverse) => holds(1 / inverse), 1 / high, 1 / low, steps);
  return found === undefined ? undefined : 1 / found;
}

function halve(holds: (t: number) => boolean, no: number, yes: number): number {
  let [a, b] = [no, yes];
  for (let k = 0; k < HALVINGS; k++) {
    const middle = Math.sqrt(a * b);
    if (holds(middle)) b = middle;
    else a = middle;
  }
  return b;
}
