// Six weeks of an invented club, simulated: who practises, three evenings a week, is known to the last detail, so that what is said about the recordings
// can be compared with what was true. Nobody's real movements.
// Run: npm run build && node examples/club.mjs [FOLDER]     (default: examples/output/club)
import { mkdirSync, realpathSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { formatRecording } from "aimed-movement/trace";
import { evening } from "./club/evening.mjs";
import { levelsOf } from "./club/levels.mjs";
import { people } from "./club/people.mjs";

const WEEKS = 6;
/** Mondays, Wednesdays and Fridays from this one on. */
const FIRST_MONDAY = Date.UTC(2026, 8, 7);
const WEEKDAYS = [0, 2, 4];
const DAY = 86_400_000;

/**
 * Writes a file of JSON Lines for every evening of every person into `folder`, `<person>-<date>.jsonl`, the same whenever it is called.
 * Returns the files and, for each person, the true story: in words, and the level of every part in every session (1: where the club began; lower is better).
 */
export function makeClub(folder) {
  mkdirSync(folder, { recursive: true });
  const evenings = Array.from({ length: WEEKS }, (_, week) => WEEKDAYS.map((weekday) => 7 * week + weekday)).flat();
  const files = [];
  const stories = people.map((member) => {
    const days = evenings.slice(-member.sessions);
    const levels = levelsOf(member, days);
    const sessions = days.map((day, j) => {
      const date = new Date(FIRST_MONDAY + day * DAY).toISOString().slice(0, 10);
      const equipment = member.equipment(1 + Math.floor(day / 7));
      const session = {
        person: member.person,
        startedAt: `${date}T19:00:00+02:00`,
        equipment,
        recordings: evening({ seed: 1000 * member.seed + 10 * j, levels: levels[j], equipment, usual: 30 }),
      };
      const file = join(folder, `${member.person.toLowerCase()}-${date}.jsonl`);
      writeFileSync(file, formatRecording(session));
      files.push(file);
      return { date, equipment: equipment.id, levels: levels[j] };
    });
    return { person: member.person, story: member.story, sessions };
  });
  return { files, stories };
}

if (process.argv[1] !== undefined && realpathSync(process.argv[1]) === fileURLToPath(import.meta.url)) {
  const folder = process.argv[2] ?? fileURLToPath(new URL("output/club", import.meta.url));
  const { files, stories } = makeClub(folder);
  console.log(`${files.length} simulated evenings of an invented club in ${folder}; nobody's real movements.\n`);
  for (const { person, story, sessions } of stories) console.log(`${person}: ${sessions.length} evenings; ${story}.`);
  console.log(
    "\nNone of this says how much anybody should practise. Stop at pain, numbness or tingling; take breaks; ask a clinician if it stays.",
  );
}
