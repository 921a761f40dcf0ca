const BYTES_PER_MB = 1e6;
const SECONDS_PER_MINUTE = 60;
/** Seconds before which a rate is a guess. */
const FIRST_RATE = 2;

/** How far reading has come. */
export interface Progress {
  /** The file that is read, from 1. */
  readonly file: number;
  readonly files: number;
  /** Bytes read in this run. */
  readonly bytes: number;
  /** Bytes there are to read; absent where a stream does not tell. */
  readonly total?: number;
  /** Seconds since reading began. */
  readonly seconds: number;
}

/** The line that shows it. */
export function progressLine({ file, files, bytes, total, seconds }: Progress): string {
  const rate = bytes / seconds;
  const hasRate = seconds >= FIRST_RATE && bytes > 0;
  return [
    `reading ${file} of ${files}`,
    total === undefined ? `${megabytes(bytes)} MB` : `${megabytes(bytes)} of ${megabytes(total)} MB`,
    ...(hasRate ? [`${(rate / BYTES_PER_MB).toFixed(1)} MB/s`] : []),
    ...(hasRate && total !== undefined && total > bytes ? [`${duration((total - bytes) / rate)} left`] : []),
  ].join(", ");
}

function megabytes(bytes: number): string {
  return String(Math.round(bytes / BYTES_PER_MB));
}

function duration(seconds: number): string {
  return seconds < 2 * SECONDS_PER_MINUTE ? `${Math.ceil(seconds)} s` : `${Math.ceil(seconds / SECONDS_PER_MINUTE)} min`;
}
