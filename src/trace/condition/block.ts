/** Samples that a loop handles at a time: a short function that is called often gets faster code than a long loop that is entered once. */
export const BLOCK = 1024;
