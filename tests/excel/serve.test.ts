/** `npm run excel`, from its own certificate to the files that Excel asks for. */
import { spawn } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { get } from "node:https";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";

/** Away from the ports in common use, and different from one run to the next. */
const port = 20_000 + (process.pid % 10_000);
const home = mkdtempSync(join(tmpdir(), "pucksheet-"));
let server: ReturnType<typeof spawn>;
let printed = "";

beforeAll(async () => {
  // A home of its own, so that the certificates of whoever runs this stay as they are.
  const env = { ...process.env, HOME: home, USERPROFILE: home, PORT: String(port) };
  server = spawn(process.execPath, ["--import", "tsx", "scripts/excel.ts", "--built"], { env });
  await new Promise<void>((resolve, reject) => {
    const read = (text: Buffer) => {
      printed += text.toString();
      if (printed.includes("click the Pucksheet button")) resolve();
    };
    server.stdout!.on("data", read);
    server.stderr!.on("data", read);
    server.on("exit", () => reject(new Error(`The server ended: ${printed}`)));
  });
});
afterAll(() => {
  server.removeAllListeners("exit");
  server.kill();
  rmSync(home, { recursive: true, force: true });
});

interface Answer {
  readonly status: number | undefined;
  readonly headers: Record<string, string | string[] | undefined>;
  readonly body: string;
}

/** Fetches over a connection that trusts the new certificate authority and nothing else. */
function fetchSecurely(path: string): Promise<Answer> {
  const ca = readFileSync(join(home, ".office-addin-dev-certs", "ca.crt"));
  return new Promise((resolve, reject) => {
    get(`https://localhost:${port}${path}`, { ca }, (response) => {
      let body = "";
      response.on("data", (text: Buffer) => (body += text.toString()));
      response.on("end", () => resolve({ status: response.statusCode, headers: response.headers, body }));
    }).on("error", reject);
  });
}

describe("serving the add-in", () => {
  test("says where the manifest is and what to do with it in every Excel", () => {
    for (const words of [`https://localhost:${port}`, "manifest.xml", "Excel on the web", "Excel on Windows", "Excel on Mac"]) {
      expect(printed).toContain(words);
    }
  });

  test("answers over https with what Excel asks for, open to its own pages and with no caching rules", async () => {
    const types: Record<string, string> = {
      "/taskpane.html": "text/html; charset=utf-8",
      "/functions.js": "application/javascript; charset=utf-8",
      "/functions.json": "application/json; charset=utf-8",
      "/assets/icon-32.png": "image/png",
    };
    for (const [path, type] of Object.entries(types)) {
      const { status, headers } = await fetchSecurely(path);
      expect([status, headers["content-type"]], path).toEqual([200, type]);
      // Excel's own pages fetch the functions, and nothing else.
      expect(headers["access-control-allow-origin"], path).toBe(path.startsWith("/functions.") ? "*" : undefined);
      // Office shows its own icon in place of one that comes with caching rules.
      expect(headers["cache-control"]).toBeUndefined();
    }
  });

  test("serves the build and nothing else", async () => {
    expect(existsSync("package.json")).toBe(true);
    for (const path of ["/../package.json", "/%2e%2e/package.json", "/..%2fpackage.json", "/nothing.html"]) {
      expect((await fetchSecurely(path)).status, path).toBe(404);
    }
  });
});
