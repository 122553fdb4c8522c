/** Draws the icon files from their two drawings; run it by hand after changing a drawing: `npx tsx scripts/icons.ts`. */
import { readFileSync } from "node:fs";
import { launchChromium } from "../tests/chromium.ts";

const folder = "src/assets";
/** The sizes a manifest can name: 16, 32 and 80 are required on a ribbon, 32 and 64 in the list of add-ins, 128 in a store. */
const sizes = [16, 20, 24, 32, 40, 48, 64, 80, 128];
/** Up to this size the fine drawing would blur. */
const smallUpTo = 24;

const browser = await launchChromium();
const page = await browser.newPage();
for (const size of sizes) {
  const drawing = readFileSync(`${folder}/${size <= smallUpTo ? "icon-small" : "icon"}.svg`, "utf8");
  await page.setViewportSize({ width: size, height: size });
  await page.setContent(`<style>body { margin: 0 } svg { display: block; width: ${size}px; height: ${size}px }</style>${drawing}`);
  await page.screenshot({ path: `${folder}/icon-${size}.png`, omitBackground: true });
}
await browser.close();
