/** Requests as no browser of good faith sends them, and machines on which the servers cannot start. */
import { execFile, execFileSync, spawn, type ChildProcess } from "node:child_process";
import { once } from "node:events";
import { chmodSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, symlinkSync, writeFileSync } from "node:fs";
import { createServer, request, type IncomingHttpHeaders, type Server } from "node:http";
import { request as secureRequest } from "node:https";
import { connect } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { filesOf, listen } from "../../scripts/serve.ts";

const megabytes = 16;
let place: string;
let server: Server;
let port: number;

beforeAll(async () => {
  place = mkdtempSync(join(tmpdir(), "pucksheet-served-"));
  const folder = join(place, "site");
  mkdirSync(join(folder, "pages"), { recursive: true });
  mkdirSync(join(place, "private"));
  for (const [name, text] of [["index.html", "the sheet"], ["pages/index.html", "the pages"], ["pages/ROW.html", "a page"], ["pane.html", "the pane"], ["functions.json", "{}"], [".hidden", "x"]]) {
    writeFileSync(join(folder, name!), text!);
  }
  writeFileSync(join(folder, "large.js"), Buffer.alloc(megabytes << 20, "x"));
  writeFileSync(join(place, "secret.txt"), "secret");
  writeFileSync(join(place, "private/index.html"), "secret");
  symlinkSync(join(place, "secret.txt"), join(folder, "link.txt"));
  symlinkSync(join(place, "private"), join(folder, "linked"));
  symlinkSync(join(place, "gone"), join(folder, "dangling.txt"));
  symlinkSync(join(folder, "pages/ROW.html"), join(folder, "inside.html"));
  if (process.platform !== "win32") execFileSync("mkfifo", [join(folder, "pipe.txt")]);
  server = createServer(filesOf(folder, { fetch: ["functions.json"], frame: ["pane.html"] }));
  port = await listen(server, 0);
});
afterAll(() => {
  server.closeAllConnections();
  server.close();
  rmSync(place, { recursive: true });
});

interface Answer {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly body: string;
}

async function ask(path: string, { method = "GET", host = `localhost:${port}`, secure = false, to = port } = {}): Promise<Answer> {
  const options = { host: "localhost", port: to, path, method, headers: { host } };
  const asked = secure ? secureRequest({ ...options, rejectUnauthorized: false }) : request(options);
  asked.end();
  const [response] = (await once(asked, "response")) as [NodeJS.ReadableStream & { statusCode: number; headers: IncomingHttpHeaders }];
  let body = "";
  for await (const piece of response) body += String(piece);
  return { status: response.statusCode, headers: response.headers, body };
}

/** The first line that comes back for a request line that no library would write. */
async function askRaw(line: string): Promise<string> {
  const socket = connect(port, "localhost");
  socket.end(`${line}\r\nHost: localhost\r\nConnection: close\r\n\r\n`);
  let answer = "";
  for await (const piece of socket) answer += String(piece);
  return answer.split("\r\n")[0]!;
}

describe("a path that is none", () => {
  it.each(["/%", "/%ff", "/%c0%ae%c0%ae/secret.txt", "/a%00b"])("%s is answered with 400", async (path) => {
    expect((await ask(path)).status).toBe(400);
  });

  it.each([
    "//[", "//x", "/../secret.txt", "/..%2fsecret.txt", "/%2e%2e/secret.txt", "/pages/..%5c..%5csecret.txt", "/.hidden", "/pages/../../secret.txt", "/nothing", "/index.html/",
    `/${"a/".repeat(5000)}`, `/${"a".repeat(5000)}`,
  ])("%.40s leads to nothing", async (path) => {
    const { status, body } = await ask(path);
    expect([status, body]).toEqual([404, "There is no such page."]);
  });

  it.each(["GET http://elsewhere.example/ HTTP/1.1", "GET * HTTP/1.1", "GET index.html HTTP/1.1", "GET /\u0001 HTTP/1.1", "NONSENSE", "GET / HTTP/9.9"])("%j is answered with 400", async (line) => {
    expect(await askRaw(line)).toMatch(/^HTTP\/1\.1 400 /);
  });

  it("does not keep the server from answering the next one", async () => {
    for (const [path, body] of [["/", "the sheet"], ["//", "the sheet"], ["/?a=%", "the sheet"], ["/pages/", "the pages"], ["/pages/ROW.html#top", "a page"], ["/inside.html", "a page"]]) {
      expect(await ask(path!)).toMatchObject({ status: 200, body });
    }
    expect((await ask("/pages")).headers.location).toBe("/pages/");
  });
});

it.each(["/link.txt", "/linked/index.html", "/linked/", "/linked", "/dangling.txt", "/pipe.txt"])("the link %s is not followed out of the folder", async (path) => {
  expect((await ask(path)).status).toBe(404);
});

it("reads only: GET and HEAD", async () => {
  for (const method of ["POST", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "PROPFIND"]) {
    const { status, headers } = await ask("/index.html", { method });
    expect([method, status, headers.allow]).toEqual([method, 405, "GET, HEAD"]);
  }
  const head = await ask("/index.html", { method: "HEAD" });
  expect([head.status, head.headers["content-length"], head.body]).toEqual([200, "9", ""]);
});

it("answers to the names of this machine and to no other", async () => {
  for (const host of ["elsewhere.example", `elsewhere.example:${port}`, "localhost.elsewhere.example", "localhost@elsewhere.example", "127.0.0.1.elsewhere.example", "0.0.0.0", "192.0.2.1"]) {
    expect([host, (await ask("/index.html", { host })).status]).toEqual([host, 421]);
  }
  for (const host of ["localhost", `LOCALHOST:${port}`, "127.0.0.1:1", `[::1]:${port}`]) expect([host, (await ask("/index.html", { host })).status]).toEqual([host, 200]);
});

it("lets other origins read and frame nothing but what is listed", async () => {
  const headersOf = async (path: string): Promise<unknown[]> => {
    const { headers } = await ask(path);
    return ["x-content-type-options", "content-security-policy", "access-control-allow-origin", "cache-control"].map((name) => headers[name]);
  };
  const closed = ["nosniff", "frame-ancestors 'none'", undefined, undefined];
  expect(await headersOf("/index.html")).toEqual(closed);
  expect(await headersOf("/nothing")).toEqual(closed);
  expect(await headersOf("/pages")).toEqual(closed);
  expect(await headersOf("/functions.json")).toEqual(["nosniff", "frame-ancestors 'none'", "*", undefined]);
  expect(await headersOf("/pane.html")).toEqual(["nosniff", undefined, undefined, undefined]);
  expect((await ask("/functions.json")).headers["content-type"]).toBe("application/json; charset=utf-8");
});

it("closes the file of a download that is broken off", async () => {
  const open = (): number => readdirSync("/dev/fd").length;
  const before = open();
  for (let download = 0; download < 300; download++) {
    const asked = request({ host: "localhost", port, path: "/large.js", agent: false });
    asked.end();
    const [response] = (await once(asked, "response")) as [NodeJS.ReadableStream];
    await once(response, "data");
    asked.destroy();
  }
  // A few sockets may still be closing; three hundred files are not.
  await vi.waitFor(() => expect(open()).toBeLessThan(before + 20), { timeout: 10_000 });
});

describe("a machine on which a server cannot start", () => {
  /** Runs one of the commands to its end. */
  function run(script: string, environment: Record<string, string>): Promise<{ code: unknown; err: string }> {
    return new Promise((resolve) => {
      execFile(process.execPath, ["--import", "tsx", `scripts/${script}.ts`, "--built", "--no-open"], { env: { ...process.env, ...environment } }, (error, _, err) => resolve({ code: error?.code, err }));
    });
  }

  it.each([
    ["excel", "abc"], ["excel", "-1"], ["excel", "0"], ["excel", "70000"], ["excel", "3000.5"], ["start", "abc"],
  ])("%s says what PORT=%s should be", async (script, asked) => {
    expect(await run(script, { PORT: asked })).toEqual({ code: 1, err: `PORT must be a whole number from 1 to 65535, but is “${asked}”.\n` });
  });

  it("excel says that its port is in use", async () => {
    const { code, err } = await run("excel", { PORT: String(port), HOME: place });
    expect([code, err]).toEqual([1, `Port ${port} is in use by another program. End that program, or set PORT to another number, then run this again.\n`]);
  });

  it("excel says where no certificate can be kept, and where one is damaged", async () => {
    const file = join(place, "file");
    writeFileSync(file, "");
    const damaged = join(place, "damaged");
    mkdirSync(join(damaged, ".office-addin-dev-certs"), { recursive: true });
    for (const name of ["ca.crt", "localhost.crt", "localhost.key"]) writeFileSync(join(damaged, ".office-addin-dev-certs", name), "no certificate");
    for (const home of [file, damaged]) {
      const { code, err } = await run("excel", { HOME: home });
      expect(code).toBe(1);
      expect(err).toContain("There is no certificate for https: ");
      expect(err).toContain(`Move the folder ${join(home, ".office-addin-dev-certs")} away`);
      expect(err).not.toMatch(/\n\s+at /);
    }
  });
});

describe("the add-in served", () => {
  let excel: ChildProcess;
  let excelPort: number;
  let home: string;

  beforeAll(async () => {
    home = mkdtempSync(join(tmpdir(), "pucksheet-home-"));
    // A port that was free a moment ago.
    const probe = createServer();
    excelPort = await listen(probe, 0);
    await new Promise((closed) => probe.close(closed));
    excel = spawn(process.execPath, ["--import", "tsx", "scripts/excel.ts", "--built"], { env: { ...process.env, HOME: home, PORT: String(excelPort) }, stdio: ["ignore", "pipe", "inherit"] });
    let said = "";
    for await (const piece of excel.stdout!) {
      said += String(piece);
      if (said.includes("is served at")) break;
    }
  });
  afterAll(() => {
    excel.kill();
    rmSync(home, { recursive: true });
  });

  it("keeps its key to its owner", () => {
    const key = join(home, ".office-addin-dev-certs/localhost.key");
    expect(readFileSync(key, "utf8")).toContain("PRIVATE KEY");
    if (process.platform !== "win32") expect(statSync(key).mode & 0o777).toBe(0o600);
  });

  it("opens to Excel's pages what they need, and lives through what is no path", async () => {
    const get = (path: string): Promise<Answer> => ask(path, { secure: true, to: excelPort });
    expect((await get("/%")).status).toBe(400);
    const headers = async (path: string): Promise<unknown[]> => {
      const answer = await get(path);
      return [answer.status, answer.headers["content-security-policy"], answer.headers["access-control-allow-origin"]];
    };
    expect(await headers("/functions.json")).toEqual([200, "frame-ancestors 'none'", "*"]);
    expect(await headers("/taskpane.html")).toEqual([200, undefined, undefined]);
    expect(await headers("/index.html")).toEqual([200, "frame-ancestors 'none'", undefined]);
  });

  it("takes the reading away from others where an older key allowed it", async () => {
    const key = join(home, ".office-addin-dev-certs/localhost.key");
    chmodSync(key, 0o644);
    await new Promise((resolve) => execFile(process.execPath, ["--import", "tsx", "scripts/excel.ts", "--built"], { env: { ...process.env, HOME: home, PORT: String(excelPort) } }, resolve));
    if (process.platform !== "win32") expect(statSync(key).mode & 0o777).toBe(0o600);
  });
});
