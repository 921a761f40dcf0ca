// One line per check, and how many fell short.

let failures = 0;

export function check(name: string, ok: boolean, detail: unknown = ""): void {
  if (!ok) failures++;
  console.log(`${ok ? "ok   " : "SHORT"} ${name}${ok ? "" : `: ${JSON.stringify(detail)}`}`);
}

/** Says how it went and gives the code to end with. */
export function tellChecks(): number {
  console.log(failures === 0 ? "all ok" : `${failures} short`);
  return failures === 0 ? 0 : 1;
}
