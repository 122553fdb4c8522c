/** Serves the build on this machine, to this machine. */
import { realpath } from "node:fs/promises";
import type { IncomingMessage, RequestListener, Server, ServerResponse } from "node:http";
import type { AddressInfo } from "node:net";
import { isAbsolute, relative, sep } from "node:path";
import { pipeline } from "node:stream/promises";
import { send } from "@fastify/send";

/** What pages of other origins may do with the files, as paths from the folder. Without these, nothing. */
export interface OtherOrigins {
  /** Read them. */
  readonly fetch?: readonly string[];
  /** Show them in a frame. */
  readonly frame?: readonly string[];
}

/** Answers requests with the files of a folder, and with nothing that lies outside it, be it through a link. */
export function filesOf(folder: string, others: OtherOrigins = {}): RequestListener {
  return (request, response) => {
    answer(request, response, folder, others).catch((thrown: unknown) => {
      if (thrown instanceof Refusal) refuse(response, thrown);
      // Whoever asked has gone away in the middle, or the file has.
      else response.destroy();
    });
  };
}

async function answer(request: IncomingMessage, response: ServerResponse, folder: string, others: OtherOrigins): Promise<void> {
  if (request.method !== "GET" && request.method !== "HEAD") throw new Refusal(405);
  // A page of elsewhere whose name leads to this machine must not read along.
  if (!/^(?:localhost|127\.0\.0\.1|\[::1\])(?::\d+)?$/i.test(request.headers.host ?? "")) throw new Refusal(421);
  const path = /^\/[^?#]*/.exec(request.url ?? "")?.[0];
  if (path === undefined) throw new Refusal(400);
  let file = "";
  const found = await send(request, path, {
    root: folder,
    dotfiles: "ignore",
    acceptRanges: false,
    // Office shows no icon that is served with caching rules, and a page that was built again must be read again.
    cacheControl: false,
    etag: false,
    lastModified: false,
    onFile: async (asked, stat) => {
      // To open what is no file can take forever.
      if (!stat.isFile()) throw new Refusal(404);
      file = await within(folder, asked);
    },
  });
  if (found.type === "error") throw new Refusal(found.statusCode === 400 ? 400 : 404);
  if (found.type === "directory") await within(folder, found.metadata.path);
  response.writeHead(found.statusCode, { ...found.headers, ...headersFor(file, others) });
  await pipeline(found.stream, response);
}

/** Where in the folder the path really lies, with "/" between; refuses one that a link leads outside. */
async function within(folder: string, path: string): Promise<string> {
  const inside = relative(await realpath(folder), await realpath(path));
  const parts = inside.split(sep);
  if (parts[0] === ".." || isAbsolute(inside)) throw new Refusal(404);
  return parts.join("/");
}

function headersFor(file: string, { fetch = [], frame = [] }: OtherOrigins): Record<string, string> {
  return {
    "X-Content-Type-Options": "nosniff",
    ...(frame.includes(file) ? {} : { "Content-Security-Policy": "frame-ancestors 'none'" }),
    ...(fetch.includes(file) ? { "Access-Control-Allow-Origin": "*" } : {}),
  };
}

const refusals = {
  400: "This address cannot be read.",
  404: "There is no such page.",
  405: "Pages can only be read here.",
  421: "This is served to this machine only, as localhost.",
} as const;

class Refusal extends Error {
  constructor(readonly status: keyof typeof refusals) {
    super(refusals[status]);
  }
}

function refuse(response: ServerResponse, { status, message }: Refusal): void {
  const allow = status === 405 ? { Allow: "GET, HEAD" } : {};
  response.writeHead(status, { "Content-Type": "text/plain; charset=utf-8", ...headersFor("", {}), ...allow }).end(message);
}

/** Listens on the loopback address only, and gives the port. A server that is to `moveOn` takes the next free port when this one is taken. */
export function listen(server: Server, port: number, { moveOn = false } = {}): Promise<number> {
  return new Promise((resolve, reject) => {
    const failed = (error: NodeJS.ErrnoException): void => {
      if (error.code === "EADDRINUSE" && moveOn && port < 65535) resolve(listen(server, port + 1, { moveOn }));
      else reject(error);
    };
    server.once("error", failed);
    server.listen(port, "localhost", () => {
      server.off("error", failed);
      resolve((server.address() as AddressInfo).port);
    });
  });
}
