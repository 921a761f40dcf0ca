const ENTITIES: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;" };

/**
 * A text as it stands between tags or quotes of HTML, whatever it holds. Control characters that HTML does not allow become the replacement character, and so do
 * those that turn the direction of the text around them, so that a name cannot rearrange the sentence it stands in.
 */
export function escapeHtml(text: string): string {
  return visible(text).replace(/[&<>"']/g, (character) => ENTITIES[character]!);
}

/** The text with every character that acts instead of showing replaced; line ends become spaces. */
export function visible(text: string): string {
  return harmless(text.replace(/[\r\n\t\u2028\u2029]+/g, " "));
}

/** The text with every character replaced that a page, a sentence or a terminal would obey instead of showing, line ends among them. */
export function harmless(text: string): string {
  return text.replace(/[\p{Cc}\p{Surrogate}\u200e\u200f\u2028\u2029\u202a-\u202e\u2066-\u2069]/gu, "\ufffd");
}
