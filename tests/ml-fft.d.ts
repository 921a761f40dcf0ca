// The part of ml-fft that the benchmarks use; the package has no types of its own.
declare module "ml-fft" {
  export const FFT: {
    init(size: number): void;
    /** In place, complex values in two columns. */
    fft(re: number[], im: number[]): void;
  };
}
