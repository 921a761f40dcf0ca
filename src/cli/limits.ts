/** Bounds of a run, which only tests set. */
export interface Limits {
  /** Bytes of one session that are read: more than an hour at 1000 Hz without a pause. It is held whole while it is analysed, in 13 times its bytes at most. */
  readonly mostBytes: number;
  /** Bytes from which workers are started. */
  readonly manyBytes: number;
  /** What a worker runs; without it everything is analysed in this process. */
  readonly worker?: URL;
}

/** Workers take 0.2 s to start, in which two megabytes are analysed; from four times that on they save time. */
export const LIMITS: Limits = { mostBytes: 2 ** 27, manyBytes: 2 ** 23 };
