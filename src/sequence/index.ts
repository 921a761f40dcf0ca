// Several targets in sequence: the order in which they are taken, against the shortest.

export type { PointColumns } from "../fitts/path/require-points.js";
export { type ShortestTour, type ShortestTourOptions, shortestTour } from "./shortest-tour.js";
export type { TourKind } from "./tour/visiting-order.js";
