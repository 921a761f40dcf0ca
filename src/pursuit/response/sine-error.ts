/** RMS of pointer minus target over the amplitude of a sinusoidal target that is followed with this gain and phase (radians); 0.7071 for a pointer at rest. */
export function sineError(gain: number, phase: number): number {
  return Math.sqrt(sineErrorPower(gain, phase) / 2);
}

/** Power of that error over the power of the target: 1 for a pointer at rest. */
export function sineErrorPower(gain: number, phase: number): number {
  // (1 - gain)^2 kept apart, so that near-perfect following keeps its digits
  return (1 - gain) ** 2 + 4 * gain * Math.sin(phase / 2) ** 2;
}
