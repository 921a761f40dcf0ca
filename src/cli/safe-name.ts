/** Longest base of a file name, in bytes of UTF-8: the 255 that systems take, less room for a number, an ending and a second one while it is written. */
const MOST_BYTES = 160;
/** Names that some systems keep for devices. */
const RESERVED = /^(con|prn|aux|nul|com\d|lpt\d)$/i;

/**
 * A file name for a person: letters, their marks and digits of any script stay, everything else becomes a hyphen, so that no name leads out of the folder. Names
 * that come out alike (also in upper and lower case) are numbered.
 */
export function createNamer(): (person: string) => string {
  const taken = new Set<string>();
  return (person) => {
    const letters = person
      .normalize("NFC")
      .replace(/[^\p{L}\p{M}\p{N}]+/gu, "-")
      .replace(/^-+|-+$/g, "");
    const short = shortened(letters);
    const base = short === "" || RESERVED.test(short) ? `person-${short}`.replace(/-$/, "") : short;
    let name = base;
    for (let k = 2; taken.has(folded(name)); k++) name = `${base}-${k}`;
    taken.add(folded(name));
    return name;
  };
}

/** What is one name where upper and lower case are the same. */
function folded(name: string): string {
  return name.toUpperCase().toLowerCase();
}

function shortened(letters: string): string {
  let bytes = 0;
  const fitting = [...letters].filter((letter) => {
    bytes += Buffer.byteLength(letter);
    return bytes <= MOST_BYTES;
  });
  return fitting.join("");
}
