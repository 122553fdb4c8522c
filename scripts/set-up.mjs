/**
 * Makes a fresh clone ready, with nothing but Node: installs the packages that package-lock.json pins, where they are missing or older than it.
 * Plain JavaScript and no imports but Node's own, because it runs before anything is installed. With --browser it also sees to a Chromium.
 */
import { spawnSync } from "node:child_process";
import { existsSync, statSync } from "node:fs";

const installed = "node_modules/.package-lock.json";

if (!existsSync(installed) || statSync(installed).mtimeMs < statSync("package-lock.json").mtimeMs - 1000) {
  console.log("Installing the packages this project pins (once) …");
  run("npm", ["ci", "--ignore-scripts", "--no-audit", "--no-fund", "--loglevel=error"], "The packages could not be installed.");
}

if (process.argv.includes("--browser") && !chromium()) {
  const asRoot = process.getuid?.() === 0 && existsSync("/usr/bin/apt-get");
  if (!asRoot) stop("The browser tests need Chromium. Install it (Debian: sudo apt-get install chromium), or set CHROMIUM to its path, and run this again.");
  console.log("Installing Debian's Chromium (once) …");
  run("apt-get", ["update", "-qq"], "Debian's package lists could not be read.");
  run("apt-get", ["install", "-y", "-qq", "--no-install-recommends", "chromium", "fonts-liberation"], "Chromium could not be installed.");
}

function chromium() {
  return [process.env.CHROMIUM, "/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"].some((path) => path && existsSync(path));
}

function run(command, args, otherwise) {
  const { status } = spawnSync(command, args, { stdio: ["ignore", "inherit", "inherit"], shell: process.platform === "win32", env: { ...process.env, DEBIAN_FRONTEND: "noninteractive" } });
  if (status !== 0) stop(`${otherwise} The lines above say why.`);
}

function stop(message) {
  console.error(message);
  process.exit(1);
}
