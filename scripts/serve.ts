/** Serves the build on this machine. */
import { createReadStream, existsSync, statSync } from "node:fs";
import { createServer, type RequestListener, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { extname, join, normalize, sep } from "node:path";

const types: Record<string, string> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json; charset=utf-8",
  ".xml": "application/xml; charset=utf-8",
  ".png": "image/png",
  ".svg": "image/svg+xml",
  ".txt": "text/plain; charset=utf-8",
  ".csv": "text/csv; charset=utf-8",
  ".xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
};

/** Answers requests with the files of a folder, and nothing outside it. */
export function filesOf(folder: string): RequestListener {
  return (request, response) => {
    const path = normalize(decodeURIComponent(new URL(request.url ?? "/", "http://localhost").pathname));
    let file = join(folder, path);
    if (path.split(sep).includes("..") || !existsSync(file)) return void response.writeHead(404).end("There is no such page.");
    if (statSync(file).isDirectory()) file = join(file, "index.html");
    if (!existsSync(file)) return void response.writeHead(404).end("There is no such page.");
    // Office shows no icon that is served with caching rules, so none are sent.
    response.writeHead(200, { "Content-Type": types[extname(file)] ?? "application/octet-stream", "Access-Control-Allow-Origin": "*" });
    createReadStream(file).pipe(response);
  };
}

/** Listens on the loopback address only; the next free port follows when one is taken. */
export function listen(server: Server, port: number): Promise<number> {
  return new Promise((resolve, reject) => {
    server.once("error", (error: NodeJS.ErrnoException) => (error.code === "EADDRINUSE" ? resolve(listen(server, port + 1)) : reject(error)));
    server.listen(port, "localhost", () => resolve((server.address() as AddressInfo).port));
  });
}

export function serve(folder: string, port: number): Promise<number> {
  return listen(createServer(filesOf(folder)), port);
}
