// Elements of a page, made in one expression.

type Child = Node | string;

export function make<Name extends keyof HTMLElementTagNameMap>(
  name: Name,
  attributes: Readonly<Record<string, string>> = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[Name] {
  const element = document.createElement(name);
  for (const [attribute, value] of Object.entries(attributes)) element.setAttribute(attribute, value);
  element.append(...children);
  return element;
}

export function button(words: string, onClick: () => void): HTMLButtonElement {
  const element = make("button", { type: "button" }, words);
  element.addEventListener("click", onClick);
  return element;
}

/** A field with its label before it. */
export function labelled<Field extends HTMLElement>(words: string, field: Field): HTMLLabelElement {
  return make("label", {}, make("span", {}, words), field);
}
