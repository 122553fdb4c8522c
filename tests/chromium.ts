/** The real browser that the tests drive. */
import { existsSync } from "node:fs";
import { chromium, type Browser } from "playwright-core";

/** Nothing of the browser's own may reach for the network. */
const args = [
  "--headless",
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

export function launchChromium(): Promise<Browser> {
  const candidates = [process.env.CHROMIUM, "/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];
  const executablePath = candidates.find((path) => path && existsSync(path));
  if (!executablePath) throw new Error("No Chromium was found: install it, or set CHROMIUM to its path.");
  return chromium.launch({ executablePath, args });
}
