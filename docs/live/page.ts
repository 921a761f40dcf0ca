// The live page: buttons, the field, what is said, what was found.
import type { Recording, Session } from "../../src/trace/types.js";
import { ACQUISITION_HEAD } from "./acquisition-head.js";
import { createAnalyst } from "./analyst.js";
import { followingFor, tappingFor } from "./blocks.js";
import { button, labelled, make } from "./elements.js";
import { download, fileName } from "./files.js";
import type { Answer } from "./messages.js";
import { addLine, showAnalysis, tableView } from "./results-view.js";
import { type Ending, runTask } from "./run-task.js";
import { createSettings } from "./settings.js";
import { createStage } from "./stage.js";
import type { Task } from "./task.js";

const ENDINGS: Readonly<Record<Ending, string>> = {
  done: "Done.",
  stopped: "Stopped.",
  hidden: "Stopped, because the page was hidden.",
  smaller: "Stopped, because the field became smaller.",
};

const place = document.querySelector<HTMLElement>("#live");
if (place !== null) showPage(place);

function showPage(place: HTMLElement): void {
  /** The visitor's own recordings, all on one clock. */
  let own: { readonly origin: number; readonly startedAt: string; readonly recordings: readonly Recording[] } | undefined;
  /** A session that was read or simulated, shown in place of the visitor's own. */
  let other: { readonly session: Session; readonly from: string } | undefined;
  let stop: (() => void) | undefined;
  let ended = "";

  const settings = createSettings(() => {
    if (other === undefined && stop === undefined) analyse();
  });
  const status = make("p", { role: "status", class: "live-status" });
  const fault = make("p", { role: "alert", class: "live-fault" });
  const progress = make("p", { class: "live-progress" });
  const field = make("div", { class: "live-field", role: "group", "aria-label": "Field for the pointer", tabindex: "-1" });
  const stage = createStage(field);
  const lines = tableView({ caption: "Acquisitions as they become final", head: ACQUISITION_HEAD, rows: [] });
  const results = make("section", { class: "live-results", "aria-label": "Results" });
  const file = make("input", { type: "file", accept: ".jsonl,.csv,.txt" });

  const tap = button("Start tapping", () => begin((seed) => tappingFor(stage.size(), settings.rounds(), seed)));
  const follow = button("Start following", () => begin((seed) => followingFor(stage.size(), settings.seconds(), seed)));
  const halt = button("Stop (Escape)", () => stop?.());
  const save = button("Download the recording", () => ask({ kind: "write", session: session()! }));
  const discard = button("Discard the recording", () => {
    own = undefined;
    other = undefined;
    results.replaceChildren();
    say("The recording is gone.");
    arrange();
    tap.focus();
  });
  const example = button("Show a simulated recording", () => {
    say("Simulating.");
    ask({ kind: "simulate" });
  });
  file.addEventListener("change", async () => {
    const [chosen] = file.files ?? [];
    if (chosen === undefined) return;
    say(`Reading ${chosen.name}.`);
    const text = await chosen.text();
    // the same file may be chosen again
    file.value = "";
    ask({ kind: "read", name: chosen.name, text });
  });

  const ask = createAnalyst((answer) => hear(answer));

  function session(): Session | undefined {
    if (other !== undefined) return other.session;
    return own && { person: settings.person(), startedAt: own.startedAt, equipment: settings.equipment(), recordings: own.recordings };
  }

  function say(words: string): void {
    status.textContent = words;
    fault.textContent = "";
  }

  /** Only what can be done now can be pressed. */
  function arrange(): void {
    const runs = stop !== undefined;
    for (const one of [tap, follow, example, file]) one.disabled = runs;
    halt.disabled = !runs;
    for (const one of [save, discard]) one.disabled = runs || session() === undefined;
    field.classList.toggle("live-runs", runs);
    progress.hidden = !runs;
    lines.hidden = !runs;
  }

  function begin(taskFor: (seed: number) => Task): void {
    let task: Task;
    try {
      task = taskFor(Math.floor(Math.random() * 2 ** 31));
    } catch (error) {
      fault.textContent = (error as Error).message;
      return;
    }
    other = undefined;
    results.replaceChildren();
    lines.querySelector("tbody")!.replaceChildren();
    const origin = own?.origin ?? performance.now();
    const recordings = own?.recordings ?? [];
    let startedAt = own?.startedAt ?? "";
    stop = runTask(stage, task, {
      origin,
      onBegin: (space, at) => {
        startedAt ||= at;
        ask({ kind: "begin", space });
      },
      onChunk: (chunk) => ask({ kind: "chunk", chunk }),
      onWords: (asks, done) => {
        progress.textContent = done;
        // what asks for something is said aloud; that it goes on is not
        if (asks !== "") say(`${asks} Escape stops.`);
      },
      onEnd: (why, recording) => {
        stop = undefined;
        ended = ENDINGS[why];
        ask({ kind: "end" });
        if (recording !== undefined) own = { origin, startedAt, recordings: [...recordings, recording] };
        say(recording === undefined ? `${ended} No round was begun, so nothing was kept.` : ended);
        arrange();
        if (own !== undefined) analyse();
        else tap.focus();
      },
    });
    arrange();
    field.focus({ preventScroll: true });
    // what is said, the field and the newest lines in one view
    status.scrollIntoView({ block: "start", behavior: "instant" });
  }

  function analyse(): void {
    const shown = session();
    if (shown !== undefined) ask({ kind: "analyse", session: shown });
  }

  function hear(answer: Answer): void {
    switch (answer.kind) {
      case "acquisitions":
        for (const line of answer.lines) addLine(lines.querySelector("tbody")!, line);
        // the newest is what one looks for while tapping
        if (answer.lines.length > 0) lines.scrollTop = lines.scrollHeight;
        break;
      case "session":
        other = answer;
        ended = `This is ${answer.from}.`;
        arrange();
        analyse();
        break;
      case "analysis":
        showAnalysis(results, answer.analysis, other === undefined ? "Your recording" : `Recording from ${other.from}`);
        say(`${ended} ${answer.analysis.headline}`);
        results.querySelector<HTMLElement>("h3")!.focus({ preventScroll: true });
        break;
      case "written":
        download(fileName(session()!.startedAt), answer.text);
        break;
      case "refused":
        say("");
        fault.textContent = answer.why;
        break;
    }
  }

  place.replaceChildren(
    settings.element,
    make("div", { class: "live-buttons" }, tap, follow),
    status,
    // in view beside the field: a phone has no Escape
    make("div", { class: "live-halt" }, halt, progress),
    field,
    lines,
    make("div", { class: "live-buttons" }, example, save, discard, labelled("Load a recording", file)),
    fault,
    results,
  );
  arrange();
}
