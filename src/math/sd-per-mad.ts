/** 1 over the upper quartile of the standard normal distribution: a median absolute deviation times this estimates the SD of normal values. */
export const SD_PER_MAD = 1.482602218505602;
