import { viewAngle } from "aimed-movement";

const WIDTH = 1920;

/** Degrees per pixel over the width of a picture, for two fields of view and for the eye before the screen. */
export function spec(): object {
  const px = Array.from({ length: 33 }, (_, i) => -960 + 60 * i);
  const screen = { widthPx: WIDTH, heightPx: 1080, mmPerPx: 0.2715, viewDistanceMm: 600 };
  const lines = [90, 103].flatMap((fieldOfViewDeg) => {
    const { scene } = viewAngle({ ...screen, fieldOfViewDeg }, { px: px.flatMap((x) => [x - 0.5, x + 0.5]) });
    return px.map((x, i) => ({
      kind: `scene, field of view ${fieldOfViewDeg} deg`,
      x,
      perPx: scene!.deg[2 * i + 1]! - scene!.deg[2 * i]!,
    }));
  });
  const { visual } = viewAngle(screen, { px: px.flatMap((x) => [x - 0.5, x + 0.5]) });
  const eye = px.map((x, i) => ({ kind: "eye at 60 cm, pixels of 0.2715 mm", x, perPx: visual!.deg[2 * i + 1]! - visual!.deg[2 * i]! }));
  const wrong = px.map((x) => ({ kind: "90 deg over 1920 px: wrong", x, perPx: 90 / WIDTH }));
  return {
    title: "What a pixel is worth, over the width of the picture",
    width: 520,
    height: 280,
    data: { values: [...lines, ...eye, ...wrong] },
    mark: { type: "line" },
    encoding: {
      x: { field: "x", type: "quantitative", title: "distance from the middle, px" },
      y: { field: "perPx", type: "quantitative", title: "degrees per pixel" },
      color: { field: "kind", type: "nominal", title: null, sort: null, legend: { labelLimit: 320, orient: "top", columns: 2 } },
      strokeDash: { field: "kind", type: "nominal", title: null, sort: null, legend: { labelLimit: 320, orient: "top", columns: 2 } },
    },
  };
}
