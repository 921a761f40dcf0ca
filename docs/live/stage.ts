// The field: circles drawn as SVG whose units are CSS pixels from its top left, as the recorder's are.
import type { Size } from "./layout.js";
import type { Circle } from "./task.js";

const SVG = "http://www.w3.org/2000/svg";

export interface Stage {
  readonly element: HTMLElement;
  readonly size: () => Size;
  /** Shows these circles and nothing else, from the present frame on. */
  readonly draw: (circles: readonly Circle[]) => void;
}

/** A stage in an element, which is positioned and has no border. */
export function createStage(element: HTMLElement): Stage {
  const drawing = document.createElementNS(SVG, "svg");
  drawing.setAttribute("aria-hidden", "true");
  element.append(drawing);
  let drawn: readonly Circle[] = [];
  return {
    element,
    size: () => {
      const { width, height } = element.getBoundingClientRect();
      return { width, height };
    },
    draw: (circles) => {
      while (drawing.childElementCount > circles.length) drawing.lastElementChild!.remove();
      while (drawing.childElementCount < circles.length) drawing.append(document.createElementNS(SVG, "circle"));
      circles.forEach((circle, i) => {
        if (!isSame(circle, drawn[i])) set(drawing.children[i]!, circle);
      });
      drawn = circles;
    },
  };
}

function set(node: Element, { x, y, diameter, isNext }: Circle): void {
  const values = { cx: x, cy: y, r: diameter / 2, class: isNext ? "live-next" : "live-later" };
  for (const [name, value] of Object.entries(values)) node.setAttribute(name, String(value));
}

function isSame(one: Circle, other: Circle | undefined): boolean {
  return other !== undefined && one.x === other.x && one.y === other.y && one.diameter === other.diameter && one.isNext === other.isNext;
}
