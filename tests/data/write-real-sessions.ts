// Writes the real recordings as files of our own form, so that the command can be run on them: npx tsx tests/data/write-real-sessions.ts FOLDER
// They stay outside the project: FOLDER must not lie in it. Days and equipment were not recorded; those written here are stand-ins.
import { mkdirSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { formatRecording } from "../../src/trace/format-recording.js";
import type { Recording } from "../../src/trace/types.js";
import { choiceReachPeople, convertChoiceReach } from "./convert-choice-reach.js";

const PROJECT = resolve(fileURLToPath(new URL("../..", import.meta.url)));

/** One session per person of the choice task, and the names of the files. */
export function writeRealSessions(folder: string): string[] {
  if (resolve(folder).startsWith(PROJECT)) throw new Error(`${folder} lies in the project, where no real recording belongs`);
  mkdirSync(folder, { recursive: true });
  return choiceReachPeople().map((person) => {
    const file = join(folder, `${person}.jsonl`);
    writeFileSync(file, formatRecording(session(person, convertChoiceReach(person))));
    return file;
  });
}

function session(person: string, recording: Recording) {
  return { person, startedAt: "2007-01-01T00:00:00Z", equipment: { id: "not recorded" }, recordings: [recording] };
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href) {
  console.log(writeRealSessions(process.argv[2] ?? "").join("\n"));
}
