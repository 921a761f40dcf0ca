// Recordings to and from the visitor's disk.

/** Hands a text to the browser as a download. */
export function download(name: string, text: string): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type: "application/x-ndjson" }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

/** The name of a file by the time of its recording, without characters that a system may refuse. */
export function fileName(startedAt: string): string {
  return `pointing-${startedAt.slice(0, 19).replace(/[:T]/g, "-")}.jsonl`;
}
