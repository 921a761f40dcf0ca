import type { PathCursor } from "./compose-movement.js";

/** From `t` on, until the next spell, the hand trembles at `frequency`, Hz; the phase (radians) at `t` continues that of the spell before. */
export interface TremorSpell {
  readonly t: number;
  readonly frequency: number;
  readonly phaseX: number;
  readonly phaseY: number;
}

/** `spell` continued to the time `t`, from where on it has another frequency. */
export function nextSpell(spell: TremorSpell, t: number, frequency: number): TremorSpell {
  const turn = 2 * Math.PI * spell.frequency * (t - spell.t);
  return { t, frequency, phaseX: spell.phaseX + turn, phaseY: spell.phaseY + turn };
}

/** `path` with a sinusoid of `amplitude` on each axis; `spells` in time order, the first at or before the first time asked for. */
export function withTremor(path: PathCursor, spells: readonly TremorSpell[], amplitude: number): PathCursor {
  let current = 0;
  const cursor: PathCursor = {
    x: path.x,
    y: path.y,
    moveTo: (t) => {
      path.moveTo(t);
      while (current + 1 < spells.length && spells[current + 1]!.t <= t) current++;
      const spell = spells[current]!;
      const turn = 2 * Math.PI * spell.frequency * (t - spell.t);
      cursor.x = path.x + amplitude * Math.sin(spell.phaseX + turn);
      cursor.y = path.y + amplitude * Math.sin(spell.phaseY + turn);
    },
  };
  return cursor;
}
