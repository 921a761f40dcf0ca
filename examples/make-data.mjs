// Makes examples/data: one practice evening of an invented club, simulated. Run: npm run build && node examples/make-data.mjs
import { writeFileSync } from "node:fs";
import { simulateRecording } from "aimed-movement/simulate";
import { formatRecording } from "aimed-movement/trace";

// three members of the Tern Street Pointing Club, each with another weak part
const members = [
  { person: "ines", seed: 3101, sampleRateHz: 125, press: { delay: 0.16, delaySd: 0.05 } },
  { person: "tomas", seed: 3102, sampleRateHz: 250, primary: { alongBias: -0.09, alongSd: 0.08 }, correction: { pureShare: 0.05 } },
  { person: "bo", seed: 3103, sampleRateHz: 250, latency: { mu: 0.26, tau: 0.12 }, cases: { retry: 1, timeout: 0.05 }, sequence: 5 },
];

for (const { person, ...habits } of members) {
  const { recording } = simulateRecording({ movements: 40, ...habits });
  const session = {
    person,
    startedAt: "2026-10-06T19:00:00+02:00",
    equipment: { id: "club desk 1", refreshHz: 144, reportHz: habits.sampleRateHz, countsPerInch: 800 },
    recordings: [{ ...recording, device: "simulated mouse" }],
  };
  writeFileSync(new URL(`data/${person}.jsonl`, import.meta.url), formatRecording(session));
}
