import FFT from "fft.js";

/** Bins 0 to half of `size` of a discrete Fourier transform, sum of x[k] exp(-2 pi i j k / size). */
export interface Spectrum {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** Transforms a real signal of up to `size` values, zeros appended, into a new spectrum or into `out`. */
export type FourierPlan = (signal: ArrayLike<number>, out?: Spectrum) => Spectrum;

/**
 * A transform of real signals of `size` values, any whole number from 1. Making the plan costs as much as a transform: keep it.
 * A power of two goes straight through; any other size costs about six times as much as the power of two above it.
 */
export function fourierPlan(size: number): FourierPlan {
  return size > 1 && powerOfTwoFrom(size) === size ? radixPlan(size) : chirpPlan(size);
}

/** Room for the transform of `size` values. */
export function emptySpectrum(size: number): Spectrum {
  const bins = Math.floor(size / 2) + 1;
  return { re: new Float64Array(bins), im: new Float64Array(bins) };
}

/** The least power of two that is not below `n`. */
export function powerOfTwoFrom(n: number): number {
  return 2 ** Math.ceil(Math.log2(n));
}

function radixPlan(size: number): FourierPlan {
  const fft = new FFT(size);
  const padded = new Float64Array(size);
  const result = new Float64Array(2 * size);
  return (signal, out = emptySpectrum(size)) => {
    padded.fill(0);
    padded.set(signal);
    // the library types its buffers as lists, and reads and writes them by index only
    fft.realTransform(result as unknown as number[], padded);
    for (let j = 0; j < out.re.length; j++) {
      out.re[j] = result[2 * j]!;
      out.im[j] = result[2 * j + 1]!;
    }
    return out;
  };
}

/**
 * Bluestein's way (1970, recalled): 2 j k = j^2 + k^2 - (j - k)^2 turns the sum into a convolution with the chirp exp(i pi k^2 / size), which a
 * transform of a power of two at least twice as long carries out.
 */
function chirpPlan(size: number): FourierPlan {
  const length = Math.max(2, powerOfTwoFrom(2 * size - 1));
  const fft = new FFT(length);
  const cos = new Float64Array(size);
  const sin = new Float64Array(size);
  const work = new Float64Array(2 * length);
  const chirp = new Float64Array(2 * length);
  const moved = new Float64Array(2 * length);
  for (let k = 0; k < size; k++) {
    // whole turns taken off while the number is still exact
    const angle = (Math.PI * ((k * k) % (2 * size))) / size;
    cos[k] = Math.cos(angle);
    sin[k] = Math.sin(angle);
    for (const at of [k, (length - k) % length]) {
      work[2 * at] = cos[k]!;
      work[2 * at + 1] = sin[k]!;
    }
  }
  fft.transform(chirp, work);
  return (signal, out = emptySpectrum(size)) => {
    work.fill(0);
    for (let k = 0; k < signal.length; k++) {
      work[2 * k] = signal[k]! * cos[k]!;
      work[2 * k + 1] = -signal[k]! * sin[k]!;
    }
    fft.transform(moved, work);
    for (let i = 0; i < 2 * length; i += 2) {
      work[i] = moved[i]! * chirp[i]! - moved[i + 1]! * chirp[i + 1]!;
      work[i + 1] = moved[i]! * chirp[i + 1]! + moved[i + 1]! * chirp[i]!;
    }
    fft.inverseTransform(moved, work);
    for (let j = 0; j < out.re.length; j++) {
      out.re[j] = moved[2 * j]! * cos[j]! + moved[2 * j + 1]! * sin[j]!;
      out.im[j] = moved[2 * j + 1]! * cos[j]! - moved[2 * j]! * sin[j]!;
    }
    return out;
  };
}
