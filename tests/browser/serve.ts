// A folder over HTTP on a free port of this machine, for a browser that must not read files by themselves.
import { readFileSync } from "node:fs";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { extname, join } from "node:path";

const TYPES: Record<string, string> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript",
  ".css": "text/css",
  ".svg": "image/svg+xml",
  ".woff2": "font/woff2",
};

/** Serves a folder until `close` is called. */
export async function serveFolder(folder: string): Promise<{ readonly address: string; readonly close: () => void }> {
  const server = createServer(({ url }, response) => {
    const path = decodeURIComponent(new URL(url ?? "/", "http://localhost").pathname);
    try {
      const bytes = readFileSync(join(folder, path.endsWith("/") ? `${path}index.html` : path));
      response.writeHead(200, { "content-type": TYPES[extname(path) || ".html"] ?? "application/octet-stream" }).end(bytes);
    } catch {
      response.writeHead(404).end();
    }
  });
  await new Promise<void>((resolve) => server.listen(0, "localhost", resolve));
  return { address: `http://localhost:${(server.address() as AddressInfo).port}`, close: () => server.close() };
}
