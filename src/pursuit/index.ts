// Following a moving target: errors, lag, gain, catch-up submovements and reversals of a recording; the frequency response of plain columns.

export {
  type FrequencyResponse,
  type FrequencyResponseOptions,
  frequencyResponse,
  type ResponseWarning,
} from "./frequency-response.js";
export type { ResponseAtFrequency } from "./response/describe-line.js";
