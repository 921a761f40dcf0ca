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
 * A power of two goes straight through; another even size costs several times as much, an odd one twice that again.
 */
export function fourierPlan(size: number): FourierPlan {
  if (size > 1 && powerOfTwoFrom(size) === size) return radixPlan(size);
  return size % 2 === 0 ? evenPlan(size) : oddPlan(size);
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

function oddPlan(size: number): FourierPlan {
  const { values, transform } = chirpPlan(size);
  return (signal, out = emptySpectrum(size)) => {
    values.fill(0);
    for (let k = 0; k < signal.length; k++) values[2 * k] = signal[k]!;
    const bins = transform();
    for (let j = 0; j < out.re.length; j++) {
      out.re[j] = bins[2 * j]!;
      out.im[j] = bins[2 * j + 1]!;
    }
    return out;
  };
}

/** Values at even places as real parts and those at odd places as imaginary ones: half the length, and the two told apart by their symmetry. */
function evenPlan(size: number): FourierPlan {
  const half = size / 2;
  const { values, transform } = chirpPlan(half);
  const cos = Float64Array.from({ length: half + 1 }, (_, j) => Math.cos((2 * Math.PI * j) / size));
  const sin = Float64Array.from({ length: half + 1 }, (_, j) => Math.sin((2 * Math.PI * j) / size));
  return (signal, out = emptySpectrum(size)) => {
    values.fill(0);
    // one value after the other, even and odd by turns, is what pairs of parts look like
    values.set(signal);
    const bins = transform();
    for (let j = 0; j <= half; j++) {
      const here = 2 * (j % half);
      const there = 2 * ((half - j) % half);
      const evenRe = (bins[here]! + bins[there]!) / 2;
      const evenIm = (bins[here + 1]! - bins[there + 1]!) / 2;
      const oddRe = (bins[here + 1]! + bins[there + 1]!) / 2;
      const oddIm = (bins[there]! - bins[here]!) / 2;
      out.re[j] = evenRe + cos[j]! * oddRe + sin[j]! * oddIm;
      out.im[j] = evenIm + cos[j]! * oddIm - sin[j]! * oddRe;
    }
    return out;
  };
}

/** A transform of `size` complex values, real and imaginary parts by turns, from `values` into what `transform` gives. */
interface ComplexPlan {
  readonly values: Float64Array;
  readonly transform: () => Float64Array;
}

/**
 * Bluestein's way (1970, recalled): 2 j k = j^2 + k^2 - (j - k)^2 turns the sum into a convolution with the chirp exp(i pi k^2 / size), which a
 * transform of a power of two at least twice as long carries out.
 */
function chirpPlan(size: number): ComplexPlan {
  const length = Math.max(2, powerOfTwoFrom(2 * size - 1));
  const fft = new FFT(length);
  const turns = new Float64Array(2 * size);
  const work = new Float64Array(2 * length);
  const chirp = new Float64Array(2 * length);
  const moved = new Float64Array(2 * length);
  const values = new Float64Array(2 * size);
  for (let k = 0; k < size; k++) {
    // whole turns taken off while the number is still exact
    const angle = (Math.PI * ((k * k) % (2 * size))) / size;
    turns[2 * k] = Math.cos(angle);
    turns[2 * k + 1] = Math.sin(angle);
    work.set(turns.subarray(2 * k, 2 * k + 2), 2 * k);
    work.set(turns.subarray(2 * k, 2 * k + 2), 2 * ((length - k) % length));
  }
  fft.transform(chirp, work);
  const turnBack = (from: Float64Array, to: Float64Array): void => {
    for (let i = 0; i < 2 * size; i += 2) {
      const re = from[i]!;
      const im = from[i + 1]!;
      to[i] = re * turns[i]! + im * turns[i + 1]!;
      to[i + 1] = im * turns[i]! - re * turns[i + 1]!;
    }
  };
  const transform = (): Float64Array => {
    work.fill(0);
    turnBack(values, work);
    fft.transform(moved, work);
    for (let i = 0; i < 2 * length; i += 2) {
      const re = moved[i]!;
      const im = moved[i + 1]!;
      work[i] = re * chirp[i]! - im * chirp[i + 1]!;
      work[i + 1] = re * chirp[i + 1]! + im * chirp[i]!;
    }
    fft.inverseTransform(moved, work);
    turnBack(moved, moved);
    return moved;
  };
  return { values, transform };
}
