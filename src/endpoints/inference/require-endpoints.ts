import { requireColumn, show } from "../../math/require.js";
import type { Endpoints } from "../types.js";

/** Throws unless the endpoints are two equally long columns of finite numbers. */
export function requireEndpoints(where: string, name: string, endpoints: Endpoints): void {
  if (endpoints === null || typeof endpoints !== "object") {
    throw new TypeError(`${where}: ${name} must be endpoints with columns x and y, got ${show(endpoints)}`);
  }
  requireColumn(where, `${name}.x`, endpoints.x);
  requireColumn(where, `${name}.y`, endpoints.y, endpoints.x.length);
}
