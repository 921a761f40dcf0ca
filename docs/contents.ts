// The table of contents of the site: groups in their order, sections in theirs, pages in theirs. A page that no section names is an error.
import { filesBelow } from "../tests/checks/public.js";

export interface Section {
  /** Absent where a group has one section alone. */
  readonly title?: string;
  /** Files below docs, without `.md`. */
  readonly pages: readonly string[];
}

export interface Group {
  /** `"none"` puts the pages at the top, in no group. */
  readonly title: string;
  readonly sections: readonly Section[];
}

const measures = (title: string, ...names: readonly string[]): Section => ({ title, pages: names.map((name) => `metrics/${name}`) });

export const CONTENTS: readonly Group[] = [
  { title: "none", sections: [{ pages: ["start-here", "live-page", "four-parts", "which-measure", "glossary"] }] },
  {
    title: "Guides",
    sections: [
      {
        title: "Questions",
        pages: ["what-holds-you-back", "is-it-real", "is-it-a-plateau", "another-month", "pace", "equipment", "what-next"],
      },
      {
        title: "Parts of the movement",
        pages: ["endpoint-scatter", "corrections", "stop-and-press", "economy", "fitts-law", "what-moves-what"],
      },
      {
        title: "Recordings and reports",
        pages: [
          "command",
          "many-machines",
          "report",
          "charts",
          "recording",
          "many-at-once",
          "reading-events",
          "file-formats",
          "simulated-data",
          "notebooks",
        ],
      },
    ],
  },
  {
    title: "Measures",
    sections: [
      measures("The whole movement", "analyze", "summarize", "segment-movements"),
      measures(
        "Primary movement and corrections",
        "detect-submovements",
        "decompose-submovements",
        "variability-profile",
        "trial-to-trial-learning",
      ),
      measures("Following a moving target", "analyze-pursuit", "frequency-response"),
      measures("Stop and press", "stop-profile", "hold-tremor"),
      measures("The next target", "analyze-sequence", "shortest-tour"),
      measures("Economy and smoothness", "path-accuracy", "idle-movement", "spectral-arc-length", "log-dimensionless-jerk"),
      measures(
        "Where endpoints land",
        "endpoint-scatter",
        "bias-test",
        "hit-probability",
        "width-for-hit-rate",
        "circular-error-probable",
        "compare-scatters",
        "anisotropy-test",
        "scatter-dependence",
        "scatter-extent",
        "scatter-outliers",
      ),
      measures(
        "Speed and accuracy together",
        "throughput",
        "review-throughput",
        "fit-movement-time",
        "compare-movement-time-models",
        "index-of-difficulty",
        "target-width",
        "angular-difficulty",
        "steering-difficulty",
        "effective-width",
        "effective-width-from-error-rate",
        "pointing-trials",
        "project-endpoints",
        "exclude-trials",
      ),
      measures(
        "Pace",
        "recommend-pace",
        "advise-pace",
        "fit-speed-accuracy",
        "pace-trials",
        "conditional-accuracy",
        "create-staircase",
        "step-staircase",
        "staircase-threshold",
        "fit-psychometric",
      ),
      measures(
        "Does practice work?",
        "compare",
        "compare-sessions",
        "detect-plateau",
        "fit-learning-curve",
        "compare-learning-curves",
        "law-from-text",
        "session-structure",
        "reliability",
        "practice-retention",
        "practice-transfer",
      ),
      measures("What next?", "diagnose", "plan-practice", "judge-blocks"),
      measures("Many recordings", "tally", "read-tally"),
      measures("Equipment", "display-timing", "latency-budget", "control-gain", "view-angle", "compare-equipment"),
      measures(
        "The recording",
        "assess-sampling",
        "sampling-support",
        "kinematics",
        "resample",
        "lowpass",
        "savitzky-golay",
        "differentiate",
      ),
    ],
  },
  { title: "Evidence", sections: [{ pages: ["validation", "benchmarks", "real-recordings", "method-notes", "../CHANGELOG"] }] },
];

/** A page, and where in the contents it stands. */
export interface Place {
  readonly file: string;
  readonly group: string;
  readonly section: string | undefined;
}

/** All pages in reading order; throws when the contents and the files differ. */
export function places(): Place[] {
  const found = CONTENTS.flatMap(({ title: group, sections }) =>
    sections.flatMap(({ title: section, pages }) =>
      pages.map((page) => ({ file: page === "../CHANGELOG" ? "CHANGELOG.md" : `docs/${page}.md`, group, section })),
    ),
  );
  const listed = found.map(({ file }) => file);
  const written = ["CHANGELOG.md", ...filesBelow("docs", ".md").filter((file) => !file.startsWith("docs/api/"))];
  const faults = [
    ...written.filter((file) => !listed.includes(file)).map((file) => `${file} stands in no section`),
    ...listed.filter((file) => !written.includes(file)).map((file) => `${file} is no file`),
    ...listed.filter((file, at) => listed.indexOf(file) !== at).map((file) => `${file} stands in two places`),
  ];
  if (faults.length > 0) throw new Error(`docs/contents.ts: ${faults.join("; ")}`);
  return found;
}
