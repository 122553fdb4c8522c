/** Builds, serves the browser sheet on this machine and opens it. */
import { spawn, spawnSync } from "node:child_process";
import { serve } from "./serve.ts";

console.log("Building (about 20 seconds) …");
const built = spawnSync("npm", ["run", "--silent", "build"], { encoding: "utf8", shell: process.platform === "win32" });
if (built.status !== 0) {
  console.error(`${built.stdout}${built.stderr}\nThe build failed; the lines above say why.`);
  process.exit(1);
}
const port = await serve("dist", 3456);
const address = `http://localhost:${port}/`;
console.log(`The browser sheet is at ${address} — leave this window open, and press Ctrl+C to stop.`);
if (!process.argv.includes("--no-open")) openInBrowser(address);

/** Opens the person's own browser; where there is none, the printed address has to do. */
function openInBrowser(url: string): void {
  const [command, args] = process.platform === "darwin" ? ["open", [url]] : process.platform === "win32" ? ["cmd", ["/c", "start", "", url]] : ["xdg-open", [url]];
  spawn(command as string, args as string[], { stdio: "ignore", detached: true }).on("error", () => undefined).unref();
}
