/** Longest file name that every system takes, with room for a number and an ending. */
const LONGEST = 80;
/** Names that some systems keep for devices. */
const RESERVED = /^(con|prn|aux|nul|com\d|lpt\d)$/i;

/**
 * A file name for a person: letters and digits of any script stay, everything else becomes a hyphen, so that no name leads out of the folder. Names that
 * come out alike (also in upper and lower case) are numbered.
 */
export function createNamer(): (person: string) => string {
  const taken = new Set<string>();
  return (person) => {
    const letters = person
      .normalize("NFC")
      .replace(/[^\p{L}\p{N}]+/gu, "-")
      .replace(/^-+|-+$/g, "");
    const short = [...letters].slice(0, LONGEST).join("");
    const base = short === "" || RESERVED.test(short) ? `person-${short}`.replace(/-$/, "") : short;
    let name = base;
    for (let k = 2; taken.has(name.toLowerCase()); k++) name = `${base}-${k}`;
    taken.add(name.toLowerCase());
    return name;
  };
}
