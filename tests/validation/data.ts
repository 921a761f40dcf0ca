// Figures on reading and judging recordings: the two sets of real recordings against their references, and recoveries with known truth.
import { readFileSync } from "node:fs";
import { createRandom } from "../../src/math/random.js";
import { assessSampling } from "../../src/trace/assess-sampling.js";
import type { PointerEventLike } from "../../src/trace/event/pointer-event-like.js";
import { fromPointerEvents } from "../../src/trace/from-pointer-events.js";
import { fromRelativeMotion } from "../../src/trace/from-relative-motion.js";
import { choiceReachFacts } from "../data/choice-reach-facts.js";
import { choiceReachPeople, convertChoiceReach } from "../data/convert-choice-reach.js";
import { NO_POSITION, officeRemoteNames, readOffice } from "../data/convert-office-remote.js";
import { officeRemoteDifferences, officeRemoteFacts } from "../data/office-remote-facts.js";
import { sharedPath } from "../shared.js";
import type { Outcome } from "./figure.js";

const OFFICE = "office-remote recordings (Fulop et al. 2016); facts.json by NumPy";
const REACH = "choice-reach recordings (Kieslich and Henninger 2017); facts.json by NumPy";
const SEED = 20261125;

/** One line per figure; `quick` repeats the recoveries less often. */
export async function figures(quick: boolean): Promise<readonly Outcome[]> {
  const runs = quick ? 10 : 100;
  return [...officeFigures(), ...reachFigures(), lostReportFigure(runs), quantumFigure(runs), pressFigure(runs), countFigure(runs)];
}

function officeFigures(): Outcome[] {
  const path = sharedPath("data", "office-remote", "facts.json");
  if (path === undefined) return [{ name: "data/office-remote figures equal to the reference", skipped: "the office-remote recordings" }];
  const facts = JSON.parse(readFileSync(path, "utf8"));
  let compared = 0;
  let equal = 0;
  let rows = 0;
  let slow = 0;
  let slowRefused = 0;
  let coded = 0;
  let found = 0;
  let falseAlarms = 0;
  for (const name of officeRemoteNames()) {
    const reading = readOffice(name);
    const plain = assessSampling(reading.whole.trace);
    const named = assessSampling(reading.whole.trace, { missing: NO_POSITION });
    const got = officeRemoteFacts({ ...reading, plain, named });
    const total = Object.keys(got).length;
    compared += total;
    equal += total - officeRemoteDifferences(got, facts.files[`traces/${name}.csv`]).length;
    rows += reading.rows.length;
    if (named.rate.ok && named.rate.value < 20) {
      slow++;
      const { peakSpeed, peakDeceleration, jerk, tremor, eventTiming } = named.supports;
      if ([peakSpeed, peakDeceleration, jerk, tremor, eventTiming].every((verdict) => !verdict.ok && verdict.why === "belowResolution"))
        slowRefused++;
    }
    const jumps = new Set(plain.jumps.indices);
    for (const [i, row] of reading.rows.entries()) {
      const isCode = row.x === NO_POSITION;
      if (isCode) coded++;
      if (isCode && jumps.has(i)) found++;
      if (!isCode && jumps.has(i)) falseAlarms++;
    }
  }
  return [
    all("data/office-remote figures equal to the reference", equal, compared, OFFICE),
    { name: "data/office-remote rows read", value: rows, bar: `${facts.total.rows} rows`, ok: rows === facts.total.rows, source: OFFICE },
    all("trace/rows without position told by their jump", found, coded, OFFICE),
    { name: "trace/other rows taken for a jump", value: falseAlarms, bar: "0 rows", ok: falseAlarms === 0, source: OFFICE },
    all("trace/9 Hz recordings refused for kinematics and timing", slowRefused, slow, `${OFFICE}; 12 reports per movement`),
  ];
}

function reachFigures(): Outcome[] {
  const path = sharedPath("data", "choice-reach", "facts.json");
  if (path === undefined) return [{ name: "data/choice-reach figures equal to the reference", skipped: "the choice-reach recordings" }];
  const facts = JSON.parse(readFileSync(path, "utf8"));
  const { counts, trials } = choiceReachFacts(choiceReachPeople().map(convertChoiceReach));
  let compared = 0;
  let equal = 0;
  const compare = (expected: Record<string, unknown>, got: Record<string, unknown> = {}): void => {
    for (const [name, value] of Object.entries(expected)) {
      const other = got[name];
      // the least, middle and largest difference of two columns of the source that are equal throughout: no recording keeps both
      if (name === "responseTimeMinusDuration_ms_min_median_max") continue;
      compared++;
      if (typeof value === "number" && typeof other === "number" ? Math.abs(value - other) < 5e-6 : value === other) equal++;
    }
  };
  compare(facts.counts, counts);
  for (const [id, expected] of Object.entries<Record<string, unknown>>(facts.trials)) compare(expected, trials[id]);
  return [all("data/choice-reach figures equal to the reference", equal, compared, REACH)];
}

/** Steady circling at 1000 Hz, 6 px a report, of which a share is lost at random. */
function lostReportFigure(runs: number): Outcome {
  const random = createRandom(SEED);
  const n = 8000;
  let worst = 0;
  for (let run = 0; run < runs; run++) {
    const share = random.uniform(0.005, 0.1);
    const kept = Array.from({ length: n }, (_, i) => i).filter(() => random.uniform() >= share);
    const column = (value: (i: number) => number): Float64Array => Float64Array.from(kept, value);
    const trace = {
      t: column((i) => i / 1000),
      x: column((i) => Math.round(400 * Math.cos((6 * i) / 400))),
      y: column((i) => Math.round(400 * Math.sin((6 * i) / 400))),
    };
    const { lostReports } = assessSampling(trace);
    worst = Math.max(worst, lostReports.ok ? Math.abs(lostReports.value - (1 - kept.length / n)) : 1);
  }
  return {
    name: "trace/share of lost reports, worst error",
    value: worst,
    bar: "<= 0.015",
    ok: worst <= 0.015,
    source: "simulated, known truth",
  };
}

function quantumFigure(runs: number): Outcome {
  const random = createRandom(SEED);
  let found = 0;
  for (let run = 0; run < runs; run++) {
    const quantum = random.pick([1e-4, 1e-3, 1 / 64, 1 / 144, 0.005]);
    const start = random.pick([0, 1e4, 1.7e9]);
    let ticks = 0;
    const t = Float64Array.from({ length: 300 }, () => {
      ticks += Math.floor(random.uniform(1, 30));
      return start + ticks * quantum;
    });
    const { timeQuantum } = assessSampling({ t, x: t.map((_, i) => 3 * i), y: t.map(() => 0) });
    if (timeQuantum.ok && Math.abs(timeQuantum.value / quantum - 1) < 1e-3) found++;
  }
  return all("trace/clock quantum recovered", found, runs, "simulated, known truth");
}

/** Streams of moves, presses and chords made by the rules of the standard, with positions merged at random. */
function pressFigure(runs: number): Outcome {
  const random = createRandom(SEED);
  const bits = [1, 4, 2, 8, 16];
  let truth = 0;
  let found = 0;
  for (let run = 0; run < runs; run++) {
    const events: PointerEventLike[] = [{ type: "pointermove", timeStamp: 0, clientX: 0, clientY: 0, buttons: 0, button: -1 }];
    const presses: { code: string; t: number; tUp?: number }[] = [];
    let mask = 0;
    let ms = 0;
    for (let k = 0; k < 200; k++) {
      ms += Math.floor(random.uniform(4, 60));
      const button = random.uniform() < 0.3 ? Math.floor(random.uniform(0, 5)) : -1;
      const before = mask;
      if (button >= 0) mask ^= bits[button]!;
      const type = button < 0 || (before !== 0 && mask !== 0) ? "pointermove" : before === 0 ? "pointerdown" : "pointerup";
      const event = { type, timeStamp: ms, clientX: k, clientY: 0, buttons: mask, button };
      const list = [ms - 2, ms - 1, ms].slice(Math.floor(random.uniform(0, 3))).map((timeStamp) => ({ timeStamp, clientX: k, clientY: 0 }));
      events.push(type === "pointermove" ? { ...event, coalescedEvents: list } : event);
      if (mask > before) presses.push({ code: String(button), t: ms / 1000 });
      else if (mask < before) presses.filter((press) => press.code === String(button)).at(-1)!.tUp = ms / 1000;
    }
    const got = fromPointerEvents(events).recording.presses;
    truth += presses.length;
    for (const press of presses) if (got.some(({ code, t, tUp }) => code === press.code && t === press.t && tUp === press.tUp)) found++;
    // a press too many counts as one missed
    found -= Math.max(0, got.length - presses.length);
  }
  return all(
    "trace/presses recovered from pointer events, chords included",
    found,
    truth,
    "W3C Pointer Events Level 3, chorded button interactions",
  );
}

function countFigure(runs: number): Outcome {
  const random = createRandom(SEED);
  let total = 0;
  let exact = 0;
  for (let run = 0; run < runs; run++) {
    const degPerCount = random.uniform(0.001, 0.2);
    const events = Array.from({ length: 1000 }, (_, i) => {
      const [dx, dy] = [Math.round(random.normal(0, 20)), Math.round(random.normal(0, 20))];
      return { t: i / 1000, dx, dy };
    });
    const { x, y } = fromRelativeMotion(events, { degPerCount }).recording.trace;
    for (const [i, { dx, dy }] of events.entries()) {
      total++;
      const back = (column: Float64Array): number => Math.round((column[i]! - (column[i - 1] ?? 0)) / degPerCount);
      if (back(x) === dx + 0 && back(y) === dy + 0) exact++;
    }
  }
  return all("trace/device counts given back by the directions", exact, total, "definition: direction = scale times the sum of counts");
}

/** A figure whose bar is that every case meets it. */
function all(name: string, met: number, of: number, source: string): Outcome {
  const value = of === 0 ? 0 : met / of;
  return { name, value, bar: `= 1 (of ${of})`, ok: of > 0 && met === of, source };
}
