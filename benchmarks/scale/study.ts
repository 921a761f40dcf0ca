import { once } from "node:events";
import type { Figure } from "../../tests/validation/figure.js";
import { type Body, headOf, simulateBodies } from "./feed.js";
import { type Watched, watchCommand } from "./watch-command.js";

const MOST_MIB = 400;
const LEAST_SPEED_UP = 1.7;

/** How a study of many sessions goes through the command: one stream in, a table out. */
export async function studyFigures(sessions: number): Promise<Figure[]> {
  const bodies = simulateBodies();
  const samples = Math.round(bodies.reduce((sum, body) => sum + body.samples, 0) / bodies.length);
  const run = (count: number, workers: number): Promise<Watched> => runOn(bodies, count, workers);
  const few = Math.ceil(sessions / 2);
  const half = await run(few, 2);
  const whole = await run(sessions, 2);
  const alone = await run(few, 1);
  const apart = await Promise.all([run(Math.ceil(few / 2), 1), run(Math.floor(few / 2), 1)]);
  const apartSeconds = Math.max(...apart.map(({ seconds }) => seconds));
  const growth = Math.log(whole.seconds / half.seconds) / Math.log(sessions / few);
  const total = samples * sessions;
  const words = `${sessions} sessions of ten minutes at 1 kHz, ${total.toExponential(2)} samples, as one stream to a table, 2 workers`;
  return [
    figure("scale/time, s", whole.seconds, "printed", true, `${words}; ${(total / whole.seconds).toExponential(2)} samples a second`),
    figure(
      "scale/growth with the number of sessions",
      growth,
      "<= 1.1 (exponent)",
      growth <= 1.1,
      `half of them ${half.seconds.toFixed(1)} s`,
    ),
    figure(
      "scale/speed-up by two workers",
      alone.seconds / half.seconds,
      `>= ${LEAST_SPEED_UP}`,
      alone.seconds / half.seconds >= LEAST_SPEED_UP,
      `${few} sessions: ${alone.seconds.toFixed(1)} s with one, ${half.seconds.toFixed(1)} s with two`,
    ),
    figure(
      "scale/speed-up by two commands",
      alone.seconds / apartSeconds,
      "printed",
      true,
      `what this machine allows: the same sessions halved between two commands of one worker, ${apartSeconds.toFixed(1)} s`,
    ),
    figure("scale/peak memory, MiB", whole.peak, `<= ${MOST_MIB}`, whole.peak <= MOST_MIB, words),
    figure("scale/peak memory in one process, MiB", alone.peak, `<= ${MOST_MIB}`, alone.peak <= MOST_MIB, `${few} sessions`),
  ];
}

function figure(name: string, value: number, bar: string, ok: boolean, source: string): Figure {
  return { name, value, bar, ok, source };
}

function runOn(bodies: readonly Body[], count: number, workers: number): Promise<Watched> {
  return watchCommand(["--form", "csv", "--quiet", "--workers", String(workers), "-"], async (into) => {
    for (let i = 0; i < count; i++) {
      into.write(headOf(i));
      if (!into.write(bodies[i % bodies.length]!.text)) await once(into, "drain");
    }
  });
}
