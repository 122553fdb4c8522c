/** check-log over the logs of a chain. */
import { execFile } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Workbook } from "@cj-tech-master/excelts";
import Papa from "papaparse";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { writeChain, type Planted } from "./simulated-chain";

let place: string;
let chain: string;
let planted: Planted[];
beforeAll(async () => {
  place = mkdtempSync(join(tmpdir(), "pucksheet-chain-"));
  chain = join(place, "chain");
  planted = await writeChain(chain, { cafes: 12, rows: 500, mistakenEvery: 50, slow: { 4: 4, 9: -4 }, workbook: (cafe) => cafe % 3 === 0 });
});
afterAll(() => rmSync(place, { recursive: true }));

function checkLog(...args: string[]): Promise<{ code: number; out: string; err: string }> {
  return new Promise((resolve) => {
    execFile(process.execPath, ["--import", "tsx", "src/hosts/command-line/check-log.ts", ...args], (error, out, err) => {
      resolve({ code: typeof error?.code === "number" ? error.code : 0, out, err });
    });
  });
}

function table(folder: string, name: string): string[][] {
  return Papa.parse<string[]>(readFileSync(join(folder, name), "utf8").replace(/^\ufeff/, ""), { skipEmptyLines: true }).data.slice(1);
}

/** A new folder for results. */
function results(name: string): string {
  const folder = join(place, name);
  mkdirSync(folder);
  return folder;
}

describe("a chain of logs", () => {
  it("is read as one, .csv and .xlsx alike, and every planted mistake is found and nothing else", async () => {
    const folder = results("one");
    const { code, out } = await checkLog(chain, "--output", folder);
    expect(code).toBe(1);
    expect(out).toContain(`6000 rows in 12 logs: 6000 read, 0 refused. Of those read, 0 are blank and ${planted.length} look wrong.`);
    const found = table(folder, "findings.csv");
    expect(found.map(([file, , line]) => ({ file, line: Number(line) }))).toEqual(planted);
    expect(new Set(found.map(([file, sheet]) => `${file!.split(".")[1]} ${sheet}`))).toEqual(new Set(["csv ", "xlsx Shots"]));
    expect(out).toContain("Passed over, as no logs: “Prices”.");
    const summary = table(folder, "summary.csv");
    // Twelve cafés, four settings, all rows and sound ones.
    expect(summary).toHaveLength(12 * 4 * 2);
    expect(new Set(summary.map(([, cafe]) => cafe)).size).toBe(12);
    expect(summary.filter(([rows]) => rows === "all").reduce((sum, [, , , shots]) => sum + Number(shots), 0)).toBe(6000);
  });

  it("gives the same bytes whatever the number of workers", async () => {
    const bytes: Buffer[][] = [];
    for (const workers of ["1", "2", "5"]) {
      const folder = results(`workers-${workers}`);
      await checkLog(chain, "--output", folder, "--workers", workers);
      expect(readdirSync(folder)).toEqual(["findings.csv", "summary.csv"]);
      bytes.push(["findings.csv", "summary.csv"].map((name) => readFileSync(join(folder, name))));
    }
    for (const others of bytes.slice(1)) others.forEach((other, index) => expect(other.equals(bytes[0]![index]!)).toBe(true));
  });

  it("says which logs cannot be read, reads the others, and leaves out its own results", async () => {
    const folder = results("mixed");
    for (const name of ["cafe-01.csv", "cafe-03.xlsx"]) cpSync(join(chain, name), join(folder, name));
    mkdirSync(join(folder, "south"));
    cpSync(join(chain, "cafe-02.csv"), join(folder, "south/cafe-01.csv"));
    writeFileSync(join(folder, "prices.csv"), "Item,Price\nCup,2\n");
    writeFileSync(join(folder, "broken.xlsx"), "PK, but no workbook");
    writeFileSync(join(folder, "notes.txt"), "nothing to read here");
    writeFileSync(join(folder, "~$cafe-03.xlsx"), "a lock");
    for (const replace of [[], ["--replace"]]) {
      const { code, out } = await checkLog(folder, ...replace);
      expect(code).toBe(2);
      expect(out).toMatch(/^broken\.xlsx is NOT READ: broken\.xlsx .*\nprices\.csv is NOT READ: This is no shot log/);
      expect(out).toContain("1500 rows in 3 logs");
      expect(new Set(table(folder, "summary.csv").map(([, cafe]) => cafe))).toEqual(new Set(["cafe-01", "cafe-03", "south/cafe-01"]));
      if (replace.length > 0) expect(out).toMatch(/Left out, as results of an earlier run: \S*findings\.csv, \S*summary\.csv\./);
    }
  });

  it("fails where no log can be read, and leaves nothing", async () => {
    const folder = results("none");
    writeFileSync(join(folder, "a.csv"), "Item,Price\nCup,2\n");
    writeFileSync(join(folder, "b.csv"), "");
    const { code, out, err } = await checkLog(folder);
    expect([code, out]).toEqual([2, ""]);
    expect(err).toMatch(/None of these logs can be read\.\na\.csv: This is no shot log.*\nb\.csv: The file is empty\.\n$/);
    expect(readdirSync(folder)).toEqual(["a.csv", "b.csv"]);
  });
});

describe("a workbook as a log", () => {
  async function workbookLog(name: string, fill: (workbook: Workbook) => void): Promise<string> {
    const workbook = new Workbook();
    fill(workbook);
    const file = join(place, name);
    writeFileSync(file, new Uint8Array(await workbook.xlsx.writeBuffer()));
    return file;
  }

  it("keeps the numbers of rows, reads clock and percent cells, and lets what stands beside be", async () => {
    const file = await workbookLog("clock.xlsx", (workbook) => {
      const sheet = workbook.addWorksheet("Week 1");
      sheet.addRow(["Shots of the north bar"]);
      sheet.addRow([]);
      sheet.addRow(["Setting", "Dose", "Beverage", "Time", "Strength"]);
      for (const [row, [time, strength]] of [[27 / 86400, 0.095], [28 / 86400, 0.094], [27 / 1440, 0.096], [29 / 86400, 9.4]].entries()) {
        const line = sheet.addRow([6, 18 + row / 10, 36, time, strength]);
        line.getCell(4).numFmt = "[h]:mm:ss";
        line.getCell(5).numFmt = "0.0%";
      }
      sheet.getCell("H5").value = "a word beside the log";
      workbook.addWorksheet("Week 2").addRows([["Setting", "Dose", "Beverage", "Time", "Strength"], [6, 18, 36, 27, 9.5], [6, 18, 3.6, 27, 9.5]]);
    });
    const { code, out } = await checkLog(file, "--replace");
    expect(out).toContain("6 rows in the file: 6 read, 0 refused. Of those read, 0 are blank and 3 look wrong.");
    expect(code).toBe(1);
    expect(table(place, "clock-findings.csv").map(([, sheet, line, , , , , , words]) => [sheet, line, words!.slice(0, 25)])).toEqual([
      ["Week 1", "6", expect.stringMatching(/^Time/)], ["Week 1", "7", expect.stringMatching(/^Strength/)], ["Week 2", "3", expect.stringMatching(/^Beverage/)],
    ]);
    const [all] = table(place, "clock-summary.csv");
    expect(all!.slice(0, 4)).toEqual(["all", "clock", "6", "6"]);
  });

  it("is read sheet by sheet as asked, or refused in words", async () => {
    const file = await workbookLog("sheets.xlsx", (workbook) => {
      workbook.addWorksheet("Old").addRows([["Dose", "Beverage", "Time"], [18, 36, 27]]);
      workbook.addWorksheet("New").addRows([["Dose", "Beverage", "Time"], [18, 36, 27], [18.1, 36, 27]]);
      workbook.addWorksheet("Other").addRow(["nothing"]);
    });
    expect((await checkLog(file, "--sheet", "new")).out).toContain("2 rows in the file");
    expect(await checkLog(file, "--sheet", "Middle", "--replace")).toMatchObject({ code: 2, err: "There is no sheet “Middle”, but “Old”, “New”, “Other”.\n" });
    const refused = await checkLog(file, "--sheet", "Other", "--replace");
    expect(refused.err).toMatch(/This is no shot log/);
  });
});
