/** Full width per standard deviation: sqrt(2 pi e) = 4.1327, the width of even scatter with the entropy of normal scatter, rounded as the standard and the throughput literature round it. */
export const WIDTHS_PER_SD = 4.133;
