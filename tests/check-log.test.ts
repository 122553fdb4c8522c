import { exec, execFile } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Papa from "papaparse";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { plausibleShots } from "./simulated-log";

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "pucksheet-log-"));
});
afterAll(() => rmSync(folder, { recursive: true }));

/** Runs the command on a file with these contents. */
async function checkLog(name: string, contents: string | Uint8Array | undefined, ...options: string[]): Promise<{ code: number; out: string; err: string }> {
  const file = join(folder, name);
  if (contents !== undefined) writeFileSync(file, contents);
  return new Promise((resolve) => {
    execFile(process.execPath, ["scripts/check-log.mjs", file, ...options], (error, out, err) => {
      resolve({ code: typeof error?.code === "number" ? error.code : 0, out, err });
    });
  });
}

const written = (name: string): string => readFileSync(join(folder, name), "utf8");
const table = (name: string, delimiter = ","): string[][] => Papa.parse<string[]>(written(name).replace(/^\ufeff/, ""), { delimiter, skipEmptyLines: true }).data;
const heading = "date,setting,dose,beverage,time,strength\n";

describe("checking a log", () => {
  it("is what npm runs", async () => {
    const { scripts } = JSON.parse(readFileSync("package.json", "utf8")) as { scripts: Record<string, string> };
    // As npm does it: the words of the script with what was typed behind them.
    const out = await new Promise<string>((resolve) => exec(`${scripts["check-log"]!} --help`, (_, said, err) => resolve(said + err)));
    expect(out).toMatch(/^npm run check-log -- FILE… \| FOLDER \| -\n/);
  });

  it("ends with 0 on a good log and summarises its settings", async () => {
    const shots = plausibleShots(3000, 3);
    const lines = shots.map((shot, row) => `2025-03-01,${row % 2 === 0 ? 6 : 8},${shot.dose},${shot.beverage},${shot.time},${shot.strength}`);
    const { code, out } = await checkLog("good.csv", `${heading}${lines.join("\n")}\n`);
    expect(out).toContain("3000 rows in the file: 3000 read, 0 refused. Of those read, 0 are blank and 0 look wrong.");
    expect(code).toBe(0);
    expect(table("good-findings.csv")).toEqual([["file", "sheet", "line", "dose", "beverage", "time", "strength", "setting", "café", "finding"]]);
    const summary = table("good-summary.csv").slice(1);
    expect(summary.map((it) => it.slice(0, 4))).toEqual([
      ["all", "good", "6", "1500"], ["all", "good", "8", "1500"], ["without findings", "good", "6", "1500"], ["without findings", "good", "8", "1500"],
    ]);
    const six = shots.filter((_, row) => row % 2 === 0);
    const mean = six.reduce((sum, it) => sum + it.time, 0) / six.length;
    // The summary shows six digits.
    expect(Number(summary[0]![6])).toBeCloseTo(mean, 3);
  });

  it("ends with 1 where something was found; rows read and rows refused are the rows of the file", async () => {
    const lines = ["d,6,18,36,27,9.5", "d,6,18,36,0.01875,9.5", "d,6,18,2,36,4,27,5,9,5", "d,6,=1+2,36,27,9.5", "d,6,18,36,27,\"9.5", "d,6,18,36,27,9.4", ""];
    const { code, out } = await checkLog("odd.csv", heading + lines.join("\r\n"));
    expect(code).toBe(1);
    expect(out).toContain("6 rows in the file: 4 read, 2 refused. Of those read, 0 are blank and 2 look wrong.");
    const findings = table("odd-findings.csv").slice(1);
    expect(findings.map((it) => it[2])).toEqual(["3", "4", "5", "6"]);
    expect(findings[0]![9]).toMatch(/^Time 0\.01875 s looks like 0:27 typed/);
    expect(findings[1]![9]).toMatch(/^Row refused: The row has 10 cells/);
    // A cell of the log that begins like a formula stays text.
    expect(findings[2]![3]).toBe("'=1+2");
  });

  it("takes semicolons, decimal commas and Windows letters, and answers in the same form", async () => {
    const { code, out } = await checkLog("süd.csv", Uint8Array.from("Mahlgrad;Einwaage (g);Getr\u00e4nk (g);Zeit;St\u00e4rke\r\nfein;18,2;36,4;0:27;9,5\r\nfein;18,0;360;27;9,4\r\n", (it) => it.charCodeAt(0)));
    expect(out).toContain("The file is not UTF-8");
    expect(code).toBe(1);
    expect(table("süd-findings.csv", ";").slice(1).map((it) => it.slice(0, 8))).toEqual([["süd.csv", "", "3", "18,0", "360", "27", "9,4", "fein"]]);
    expect(table("süd-summary.csv", ";")[2]!.slice(0, 5)).toEqual(["without findings", "süd", "fein", "1", "2"]);
  });

  it("lets the columns and the form be named", async () => {
    const { code, out } = await checkLog("own.csv", "a|b|c\n18,250|36,500|27\n", "--dose", "a", "--beverage", "2", "--time", "c", "--separator", "|", "--decimal", "comma");
    expect(out).toContain("Columns: dose from “a”, beverage from “b”, time from “c”.");
    expect(code).toBe(0);
  });

  it.each<[string, string | Uint8Array | undefined, string[], RegExp]>([
    ["missing.csv", undefined, [], /There is no file or folder .*missing\.csv/],
    ["empty.csv", "", [], /is empty/],
    ["packed.csv", Uint8Array.from([0x50, 0x4b, 3, 4, 0, 0, 0, 0]), [], /\.xlsx workbook/],
    ["names.csv", "Name,City\nA,B\n", [], /no shot log/],
    ["form.csv", heading, ["--separator", "x"], /--separator must be/],
    ["column.csv", `${heading}d,6,18,36,27,9.5\n`, ["--dose", "mass"], /“mass”/],
    ["option.csv", heading, ["--nonsense"], /nonsense/],
    ["folder.csv", heading, ["--output", "/no/such/folder"], /no folder/],
  ])("ends with 2 and a sentence on %s", async (name, contents, options, words) => {
    const { code, out, err } = await checkLog(name, contents, ...options);
    expect(err).toMatch(words);
    expect(err).not.toMatch(/\n\s+at /);
    expect(out).toBe("");
    expect(code).toBe(2);
    expect(existsSync(join(folder, name.replace(".csv", "-findings.csv")))).toBe(false);
  });

  it("writes over nothing that is there already, unless it may", async () => {
    const log = `${heading}d,6,18,36,27,9.5\n`;
    writeFileSync(join(folder, "again-summary.csv"), "mine");
    const refused = await checkLog("again.csv", log);
    expect([refused.code, written("again-summary.csv")]).toEqual([2, "mine"]);
    expect(refused.err).toMatch(/again-summary\.csv is there already.*--replace/);
    expect((await checkLog("again.csv", log, "--replace")).code).toBe(0);
    expect(written("again-summary.csv")).not.toBe("mine");
    expect(written("again.csv")).toBe(log);
  });
});
