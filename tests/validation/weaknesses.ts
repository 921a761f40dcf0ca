// Two hundred simulated trainees with one part made worse: does the measure meant for it move, do the others stay, and is the size right?
import { TRAINEE, WEAKNESSES } from "../weaknesses/coupling.js";
import { MEASURES, type MeasureName } from "../weaknesses/measures.js";
import { level, moved, train } from "../weaknesses/study.js";
import type { Figure } from "./figure.js";

/** Seeds of the published figures; development used others (1 to 999). */
const FIRST_SEED = 50_001;
const FIRST_USUAL_SEED = 60_001;
const SOURCE = `simulated truth, ${TRAINEE.movements} movements a trainee; coupling table written first (docs/what-moves-what.md)`;
const FOLDER = { primary: "corrections", corrections: "corrections", "stop and press": "stopping", "next target": "sequence" } as const;

export async function figures(quick: boolean): Promise<readonly Figure[]> {
  const each = quick ? 8 : 20;
  const usual = Array.from({ length: quick ? 60 : 100 }, (_, i) => train(FIRST_USUAL_SEED + i, {}));
  const names = Object.keys(MEASURES) as MeasureName[];
  const result: Figure[] = [];
  const uncoupled = new Map<MeasureName, boolean[]>();
  const targets: boolean[] = [];
  Object.entries(WEAKNESSES).forEach(([name, weakness], w) => {
    const trainees = Array.from({ length: each }, (_, i) => train(FIRST_SEED + 100 * w + i, weakness.options));
    const found = trainees.map((one) => moved(one[weakness.target], level(usual, weakness.target).measured));
    targets.push(...found);
    const folder = FOLDER[weakness.part];
    const add = (what: string, value: number, bar: string, ok: boolean): void => {
      result.push({ name: `${folder}/planted ${name}: ${what}`, value, bar, ok, source: SOURCE });
    };
    add(`share of trainees in whom ${weakness.target} moves beyond its interval`, share(found), "printed", true);
    const now = level(trainees, weakness.target);
    const before = level(usual, weakness.target);
    const size = (now.measured - before.measured) / (now.true - before.true);
    add(`shift measured over shift planted, ${weakness.target}`, size, "0.8 to 1.2", size >= 0.8 && size <= 1.2);
    for (const measure of names) {
      if (measure === weakness.target) continue;
      const beyond = trainees.map((one) => moved(one[measure], level(usual, measure).measured));
      if (measure in weakness.moves) add(`coupled ${measure} moves in`, share(beyond), "printed", true);
      else uncoupled.set(measure, [...(uncoupled.get(measure) ?? []), ...beyond]);
    }
  });
  const all = [...uncoupled.values()].flat();
  const add = (name: string, value: number, bar: string, ok: boolean): void => {
    result.push({ name: `corrections/planted weaknesses: ${name}`, value, bar, ok, source: SOURCE });
  };
  add(`targeted measure moves beyond its interval (n ${targets.length})`, share(targets), ">= 0.9", share(targets) >= 0.9);
  // fewer trainees leave more to chance: 2.58 binomial standard errors about a share of 5 % hold 99 % of such runs
  const chance = quick ? 2.58 * Math.sqrt((0.05 * 0.95) / all.length) : 0;
  const [low, high] = [0.03 - chance, 0.07 + chance];
  add(
    `uncoupled measures move (n ${all.length})`,
    share(all),
    `${low.toFixed(3)} to ${high.toFixed(3)}`,
    share(all) >= low && share(all) <= high,
  );
  for (const [measure, beyond] of uncoupled) add(`uncoupled ${measure} moves (n ${beyond.length})`, share(beyond), "printed", true);
  return result;
}

function share(flags: readonly boolean[]): number {
  return flags.filter(Boolean).length / flags.length;
}
