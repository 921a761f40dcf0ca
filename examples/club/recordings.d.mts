import type { Recording } from "../../src/trace/types.js";

export function named(recording: Recording, block: string, condition: Readonly<Record<string, string | number>>): Recording;
export function after(recording: Recording, by: number): Recording;
export function rounded(recording: Recording): Recording;
