/** The commands that the README gives to try, without their remarks: lines of the first block of shell after the heading. */
export function readmeCommands(readme: string): string[] {
  const block = /^## Try it$[\s\S]*?^```sh\n([\s\S]*?)^```$/m.exec(readme);
  return (block?.[1] ?? "")
    .split("\n")
    .map((line) => line.replace(/(^|\s+)#.*$/, "").trim())
    .filter((line) => line !== "");
}
