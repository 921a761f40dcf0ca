// A folder behind a server of its own, below a subfolder as pages of a project often are.
import { existsSync, readFileSync, statSync } from "node:fs";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { extname, join, normalize } from "node:path";

const TYPES: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".svg": "image/svg+xml",
  ".woff2": "font/woff2",
};
const BELOW = "/some/where/";

export async function serve(folder: string): Promise<{ readonly url: string; readonly close: () => void }> {
  const server = createServer((request, response) => {
    const { pathname } = new URL(request.url!, "http://localhost");
    // browsers ask for it unasked, and tell of its absence as of an error of the page
    if (pathname === "/favicon.ico") {
      response.writeHead(204).end();
      return;
    }
    const file = join(folder, normalize(decodeURIComponent(pathname.slice(BELOW.length))));
    if (!pathname.startsWith(BELOW) || !file.startsWith(folder) || !existsSync(file) || !statSync(file).isFile()) {
      response.writeHead(404).end();
      return;
    }
    response.writeHead(200, { "content-type": TYPES[extname(file)] ?? "application/octet-stream" }).end(readFileSync(file));
  });
  await new Promise<void>((done) => server.listen(0, "127.0.0.1", done));
  return { url: `http://127.0.0.1:${(server.address() as AddressInfo).port}${BELOW}`, close: () => server.close() };
}
