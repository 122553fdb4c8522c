/**
 * Takes every file of a folder through the real page and says what a visit changes: `npm run try-files -- FOLDER [--copies OUT]`.
 * Ends with 0 where nothing was changed unannounced, nothing failed and nothing hung, else with 1.
 */
import { createServer } from "node:http";
import { mkdirSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { launchChromium } from "../tests/chromium.ts";
import { filesOf, listen } from "./serve.ts";
import { PageDriver } from "./try-files/page-driver.ts";
import { tryFile, type Trial } from "./try-files/try-file.ts";

const help = `npm run try-files -- FOLDER [--copies OUT]

Opens every file of FOLDER in the browser sheet, compares what it shows and the copies it saves with the file, and prints what differs.

  --copies OUT   keep the copies: OUT/as-is saved untouched, OUT/edited after one cell of every sheet was typed into`;

/** So many differences of a file are printed. */
const mostShown = 12;

const { values, positionals } = parseArgs({ allowPositionals: true, options: { copies: { type: "string" }, help: { type: "boolean" } } });
const [folder, ...others] = positionals;
if (values.help || folder === undefined || others.length > 0) {
  console.log(help);
  process.exit(values.help ? 0 : 1);
}

const files = readdirSync(folder, { withFileTypes: true }).filter((entry) => entry.isFile()).map(({ name }) => name).sort();
const browser = await launchChromium();
const driver = new PageDriver(browser, `http://localhost:${await listen(createServer(filesOf("dist")), 0)}/sheet/`);
const trials: Trial[] = [];
for (const [index, file] of files.entries()) {
  // A page that has shown many workbooks would no longer be the page that a person opens.
  if (index % 25 === 0) await driver.restart();
  const trial = await tryFile(driver, join(folder, file));
  trials.push(trial);
  if (values.copies !== undefined) keep(trial, values.copies);
  print(trial);
}
await browser.close();

const count = (outcome: Trial["outcome"]) => trials.filter((trial) => trial.outcome === outcome).length;
const differing = trials.filter(({ problems }) => problems.length > 0).length;
console.log(`\n${files.length} files: ${count("opened")} opened, ${count("refused")} refused, ${count("failed")} failed; ${differing} with something unannounced.`);
process.exit(differing > 0 ? 1 : 0);

function keep({ copies: { name, asIs, edited } }: Trial, out: string): void {
  for (const [kind, bytes] of [["as-is", asIs], ["edited", edited]] as const) {
    mkdirSync(join(out, kind), { recursive: true });
    if (bytes) writeFileSync(join(out, kind, name), bytes);
  }
}

function print({ file, outcome, words, problems, seconds }: Trial): void {
  const found = problems.length === 0 ? "" : `${problems.length} unannounced`;
  console.log(`${file.padEnd(44)} ${outcome.padEnd(8)} ${seconds.toFixed(1).padStart(5)} s  ${found || words}`);
  for (const problem of problems.slice(0, mostShown)) console.log(`    ${problem.slice(0, 400)}`);
  if (problems.length > mostShown) console.log(`    … and ${problems.length - mostShown} more`);
}
