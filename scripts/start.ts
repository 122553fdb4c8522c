/** Builds, serves the browser sheet on this machine and opens it. PORT says where, if not at 3456 or the next free port after it. */
import { spawn } from "node:child_process";
import { createServer } from "node:http";
import { build } from "./build.ts";
import { filesOf, listen } from "./serve.ts";
import { portFrom, startUp } from "./start-up.ts";

await startUp(async () => {
  const wanted = portFrom(process.env.PORT, 3456);
  build();
  const port = await listen(createServer(filesOf("dist")), wanted, { moveOn: true });
  const address = `http://localhost:${port}/`;
  console.log(`The browser sheet is at ${address} — leave this window open, and press Ctrl+C to stop.`);
  if (!process.argv.includes("--no-open")) openInBrowser(address);
});

/** Opens the person's own browser; where there is none, the printed address has to do. */
function openInBrowser(url: string): void {
  const [command, args] = process.platform === "darwin" ? ["open", [url]] : process.platform === "win32" ? ["cmd", ["/c", "start", "", url]] : ["xdg-open", [url]];
  spawn(command as string, args as string[], { stdio: "ignore", detached: true }).on("error", () => undefined).unref();
}
