/** Makes the pictures of the README from the real page: three ready sheets with their example figures. Needs a build (`npm run build`). */
import { mkdirSync } from "node:fs";
import { launchChromium } from "../tests/chromium.ts";
import { serve } from "./serve.ts";

const folder = "docs/pictures";
const sheets = ["Shot log", "Dial-in", "Setting trial"];

mkdirSync(folder, { recursive: true });
const port = await serve("dist", 4830);
const browser = await launchChromium();
for (const name of sheets) {
  // A page of its own for each, so that no other sheet's tab is in the picture.
  const page = await (await browser.newContext({ viewport: { width: 1900, height: 800 } })).newPage();
  await page.goto(`http://localhost:${port}/`);
  const pane = page.getByRole("complementary", { name: "Pane of the workbook" });
  await pane.getByLabel("With example figures").check();
  await pane.getByRole("button", { name, exact: true }).click();
  await pane.getByRole("status").filter({ hasText: "is ready" }).waitFor();
  // The pane would take a third of the picture; the charts stay.
  await page.getByRole("button", { name: "Units" }).click();
  await page.locator("svg[role=img], figure svg").first().waitFor();
  await page.waitForTimeout(1000); // the grid draws its cells on a canvas, which tells no one when it is done
  const path = `${folder}/${name.toLowerCase().replace(/ /g, "-")}.png`;
  await page.screenshot({ path });
  console.log(path);
}
await browser.close();
process.exit(0);
