/**
 * Times a path came onto a target whose centre lies in the origin, over the points `[start, end)`; one that begins on it has come onto it once. It has left again
 * where `lies` with `slack`, a distance from the edge outside that still counts as on, says so: a pointer that rests on the edge does not come and go. With
 * `between`, the point of each step that is nearest to the centre counts too, so that a fast pass between two points is not lost.
 */
export function countEntries(
  x: Float64Array,
  y: Float64Array,
  start: number,
  end: number,
  lies: (x: number, y: number, i: number, slack: number) => boolean,
  slack: number,
  between: boolean,
): number {
  let count = 0;
  let inside = false;
  const visit = (px: number, py: number, i: number): void => {
    const now = lies(px, py, i, inside ? slack : 0);
    if (now && !inside) count++;
    inside = now;
  };
  for (let i = start; i < end; i++) {
    if (between && i > start) {
      const dx = x[i]! - x[i - 1]!;
      const dy = y[i]! - y[i - 1]!;
      const square = dx * dx + dy * dy;
      const share = square === 0 ? 1 : Math.min(1, Math.max(0, -(x[i - 1]! * dx + y[i - 1]! * dy) / square));
      visit(x[i - 1]! + share * dx, y[i - 1]! + share * dy, i);
    }
    visit(x[i]!, y[i]!, i);
  }
  return count;
}
