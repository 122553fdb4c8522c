/** Makes the pictures of the README from the real page, with the invented example figures: `npm run pictures`. */
import { mkdirSync } from "node:fs";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { defaultUnits } from "../src/sheet/unit-choice.ts";
import { describedReadySheet, type ReadySheetId } from "../src/ready-sheets/index.ts";
import { launchChromium } from "../tests/chromium.ts";
import { build } from "./build.ts";
import { filesOf } from "./serve.ts";

const folder = "docs/pictures";
const pictures: readonly { readonly id: ReadySheetId; readonly file: string; readonly width: number; readonly height: number }[] = [
  { id: "ShotLog", file: "shot-log.png", width: 1640, height: 700 },
  { id: "DialIn", file: "dial-in.png", width: 1400, height: 700 },
  { id: "Trial", file: "setting-trial.png", width: 1640, height: 800 },
  { id: "Water", file: "water.png", width: 1400, height: 800 },
  { id: "Morning", file: "morning.png", width: 1024, height: 600 },
];

build();
mkdirSync(folder, { recursive: true });
const server = createServer(filesOf("dist"));
await new Promise<void>((listening) => server.listen(0, "localhost", listening));
const browser = await launchChromium();
for (const { id, file, width, height } of pictures) {
  const { name, charts } = describedReadySheet(id, { units: defaultUnits });
  const page = await browser.newPage({ viewport: { width, height }, colorScheme: "light" });
  await page.goto(`http://localhost:${(server.address() as AddressInfo).port}/sheet/`);
  await page.getByText(/^A1/).first().waitFor();
  await page.getByRole("button", { name: "New", exact: true }).click();
  await page.getByText("New sheet", { exact: true }).waitFor();
  await page.getByRole("button", { name: "Ready sheets" }).click();
  await page.getByLabel("With example figures").check();
  await page.getByRole("button", { name, exact: true }).click();
  await page.getByRole("status").filter({ hasText: `The sheet “${name}” is ready` }).waitFor();
  if (charts && charts.length > 0) await page.locator("figure svg").first().waitFor();
  // The grid is drawn in its own time.
  await page.waitForTimeout(1000);
  await page.screenshot({ path: `${folder}/${file}` });
  console.log(`${folder}/${file}`);
  await page.close();
}
await browser.close();
server.close();
