import { createHash } from "node:crypto";
import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import type { ReportDocument } from "../../src/report/render/document.js";
import { escapeHtml, visible } from "../../src/report/render/escape-html.js";
import { htmlForm, STYLE, STYLE_HASH } from "../../src/report/render/html-form.js";
import { textForm } from "../../src/report/render/text-form.js";

const document = (text: string): ReportDocument => ({
  title: text,
  lead: text,
  sections: [
    {
      id: "cost",
      heading: text,
      paragraphs: [text],
      points: [text],
      tables: [{ caption: text, head: [text, "b"], rows: [[text, text]] }],
    },
  ],
  foot: text,
});
const HOSTILE = `<script>alert(1)</script>"'&<img src=x onerror=alert(1)>\u202Egnp\u0007\u001b[31m\ud800`;

/** Tags of the page by name, as a reader of HTML would count them. */
const tags = (html: string): string[] => [...html.matchAll(/<([a-z0-9!]+)/g)].map((match) => match[1]!).sort();

describe("the HTML form", () => {
  // Source: Content Security Policy Level 3, section on hash sources: SHA-256 of the style's text in base 64 (Node's crypto)
  it("lets in its own style by its fingerprint", () =>
    expect(STYLE_HASH).toBe(`sha256-${createHash("sha256").update(STYLE).digest("base64")}`));
  // Source: HTML Living Standard, named character references
  it("escapes what would be markup", () => expect(escapeHtml(`<a href="x">'&`)).toBe("&lt;a href=&quot;x&quot;&gt;&#39;&amp;"));
  it("has the same tags whatever the texts say", () =>
    expect(tags(htmlForm(document(HOSTILE), []))).toEqual(tags(htmlForm(document("plain"), []))));
  test.prop([fc.string({ unit: "binary" })])("has the same tags for any text", (text) => {
    expect(tags(htmlForm(document(text), []))).toEqual(tags(htmlForm(document("plain"), [])));
    expect(() => encodeURIComponent(htmlForm(document(text), []))).not.toThrow();
  });
  it("holds pictures as images, in which no script runs, and asks for nothing from outside", () => {
    const svg = `<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script>\ud800</svg>`;
    const html = htmlForm(document("plain"), [{ title: "T", description: "D <x>", svg }]);
    expect(html).toContain('alt="T. D &lt;x&gt;"');
    expect(html).not.toContain("<svg");
    expect(html).not.toMatch(/(src|href)="(?!data:)/);
    expect(html).toContain("default-src 'none'");
  });
  it("names the language, one main part, one first heading, and the scope of every head cell", () => {
    const html = htmlForm(document("plain"), []);
    expect(html).toContain('<html lang="en">');
    expect(html.match(/<main>/g)).toHaveLength(1);
    expect(html.match(/<h1>/g)).toHaveLength(1);
    expect(html.match(/<th(?! scope)[ >]/g)).toBeNull();
  });
});

describe("the text form", () => {
  it("holds nothing that a terminal obeys", () => {
    const text = textForm(document(HOSTILE));
    expect(text.replaceAll("\n", "")).not.toMatch(/[\p{Cc}\u202a-\u202e]/u);
  });
  test.prop([fc.array(fc.string({ minLength: 1, maxLength: 30 }), { minLength: 1, maxLength: 60 })])(
    "breaks lines at 100 columns and loses no word",
    (words) => {
      const text = words.join(" ");
      const lines = textForm({ title: "T", lead: text, sections: [], foot: "F" }).split("\n");
      expect(lines.every((line) => line.length <= 100)).toBe(true);
      const letters = (whole: string): string => whole.replace(/\s/g, "");
      expect(letters(lines.join(""))).toBe(letters(`T=${visible(text)}F`));
    },
  );
});
