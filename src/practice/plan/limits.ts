// Numbers of the plan that somebody chose. They are printed with every plan; none of them was found by a study of pointing.

/** Half minutes: the unit all shares of a day are counted in, so that they add up exactly. */
export const UNITS_PER_MINUTE = 2;
/** Minutes of one part and of combined practice in an hour: four parts of 10 and 20 together. */
export const PART_MINUTES = 10;
export const COMBINED_MINUTES = 20;
/** Below so many minutes a stretch is not worth beginning. */
export const SHORTEST_MINUTES = 3;
/** Share of each other part's minutes that goes to the weakest part, and the most that may. */
export const USUAL_SHIFT = 0.25;
export const MOST_SHIFT = 0.5;
/** Minutes a day from which on the plan warns and divides the day. */
export const LONG_DAY_MINUTES = 60;
/** Minutes of practice between two breaks, and of a break. */
export const BETWEEN_BREAKS_MINUTES = 40;
export const BREAK_MINUTES = 5;
/** Minutes between the two sittings of a long day. */
export const BETWEEN_SITTINGS_MINUTES = 120;
/** Acquisitions in a set, and the rest after it in seconds: the middle of 20 to 40 and of 30 to 60. */
export const SET_ACQUISITIONS = 30;
export const SET_REST_SECONDS = 45;
/** Mixed practice changes the part after about so many minutes; no stretch of one kind is longer than the second number. */
export const MIXED_STRETCH_MINUTES = 5;
export const LONGEST_STRETCH_MINUTES = 30;
/** Parts are mixed from this share of first presses that hit, and this number of sessions, on. */
export const MIXED_HIT_SHARE = 0.6;
export const MIXED_SESSIONS = 5;
/** Length of the fixed test, days between two, hours without practice before the one of retention. */
export const TEST_MINUTES = 3;
export const TEST_DAYS = 3;
export const RETENTION_HOURS = 24;
/** Share of first presses that should hit where no pace advice says otherwise. */
export const WANTED_HIT_SHARE = 0.95;
/** What makes a block a poor one: so far below the wanted hit share, or latency growing by so much a block. */
export const HIT_SHARE_MARGIN = 0.1;
export const LATENCY_GROWTH = 0.1;
/** Poor blocks in a row until the part is left; blocks that a growth of latency is read from. */
export const POOR_BLOCKS = 2;
export const LATENCY_BLOCKS = 3;
/** Days away from which on the dose is reduced, and to what share. */
export const LAY_OFF_DAYS = 7;
export const LAY_OFF_SHARE = 0.5;
/** Hit share above which a task is too easy to show learning. */
export const TOO_EASY_HIT_SHARE = 0.97;
/** Sessions after a change before it is judged. */
export const SESSIONS_TO_JUDGE = 5;
/** Days a week from which on a rest of some days is the first thing to try on a plateau. */
export const DAYS_WITHOUT_REST = 6;
/** Acquisitions from which on a block's hit share is judged: at the wanted 95 % chance alone makes two such blocks in a row poor in 0.7 % of cases. */
export const LEAST_BLOCK = 10;
/** A block counts as made at the slow pace down to this share of its movement time: one step of pace. */
export const SLOW_SHARE = 0.95;
