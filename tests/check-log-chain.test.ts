/** check-log over the logs of a chain. */
import { execFile } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Workbook } from "@cj-tech-master/excelts";
import * as outside from "@e965/xlsx";
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import Papa from "papaparse";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { CsvLog } from "../src/log-file/csv-log";
import { cafeLog, csvOf, wanted, writeChain, type Planted } from "./simulated-chain";

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
    execFile(process.execPath, ["scripts/check-log.mjs", ...args], (error, out, err) => {
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

  it("tells in its report which cafés are off target, and names no others", async () => {
    const folder = results("report");
    await checkLog(chain, "--output", folder, "--window", `time=${wanted.low}..${wanted.high}`);
    const workbook = outside.read(readFileSync(join(folder, "report.xlsx")));
    const rows = (sheet: string): unknown[][] => outside.utils.sheet_to_json<unknown[]>(workbook.Sheets[sheet]!, { header: 1, blankrows: false });
    expect(workbook.SheetNames).toEqual(["Report", "Cafés", "Charts", "Settings", "Findings"]);
    const sentences = rows("Report").flat().join(" ");
    expect(sentences).toContain(`12 cafés: 6,000 rows; ${planted.length} of them look wrong or cannot be read, 1 in 50.`);
    expect(sentences).toMatch(/Shot time, 25 to 31 s wanted\. Off target: cafe-04, [^;]*(?:4|3\.9\d?|4\.0\d?) s slow on average; cafe-09, [^;]*(?:4|3\.9\d?|4\.0\d?) s fast on average\./);
    const sure = sentences.slice(0, sentences.indexOf("Lowest at"));
    expect([...new Set(sure.match(/cafe-\d+/g))]).toEqual(["cafe-04", "cafe-09"]);
    const [headings, ...cafes] = rows("Cafés").slice(1) as [string[], ...unknown[][]];
    const column = (heading: string): unknown[] => cafes.map((row) => row[headings.indexOf(heading)]);
    expect(column("Look wrong")).toEqual(new Array(12).fill(planted.length / 12));
    expect(column("Shot time: centred?").map((text, index) => (text === "Near the middle." ? [] : [index + 1])).flat()).toEqual([4, 9]);
    for (const inside of column("Shot time inside, %").filter((_, index) => ![3, 8].includes(index))) expect(inside).toBeGreaterThan(99);
    // Excel joins the points of a scatter chart by lines unless each of its series says what line it has, or that it has none.
    const series = strFromU8(unzipSync(readFileSync(join(folder, "report.xlsx")))["xl/charts/chart1.xml"]!).match(/<c:ser>.*?<c:marker>/gs)!;
    expect(series.length).toBeGreaterThan(12);
    for (const one of series) expect(one).toMatch(/<a:ln[^>]*><a:(?:noFill\/|solidFill)>/);
    // All of the cafés and the window, and little more.
    const times = strFromU8(unzipSync(readFileSync(join(folder, "report.xlsx")))["xl/charts/chart2.xml"]!);
    expect(times).toContain("<a:t>Shot time mean, s<");
    expect([/<c:min val="([\d.]+)"/, /<c:max val="([\d.]+)"/].map((end) => Number(end.exec(times)![1]))).toEqual([23, 33]);
    const found = rows("Findings").slice(2).map(([file, line]) => ({ file, line }));
    expect(found).toHaveLength(planted.length);
  });

  // Of 150 simulated cafés these two have rows where a shot of whole numbers would be the one to be typed twice.
  it.each([[79, 10_550], [98, 7750]])("is made with slips that can be told as such, and told they are: café %i", (cafe, rows) => {
    const { rows: typed, mistaken } = cafeLog({ rows, mistakenEvery: 50, slow: {} }, cafe);
    const log = new CsvLog();
    const found = [...log.push(Buffer.from(csvOf(typed))), ...log.end()];
    expect(mistaken).toHaveLength(rows / 50);
    expect(found.map(({ line }) => line)).toEqual(mistaken.map((row) => row + 2));
  });

  it("is summed by the cafés that a column names, over all files, and by file where none does", async () => {
    const folder = results("column");
    const logs = join(folder, "logs");
    mkdirSync(logs);
    const rows = (cafes: readonly string[], from: number): string =>
      Array.from({ length: 60 }, (_, row) => `${cafes[row % cafes.length]},6,18.${row % 10},36.${(row + from) % 10},${26 + (row % 5)},9.5\n`).join("");
    const headings = "Shop,Grind,Dose (g),Beverage (g),Shot time (s),TDS (%)\n";
    writeFileSync(join(logs, "april.csv"), `${headings}${rows(["Harbour", "Mill"], 1)},,,,,\nMill,6,18,360,27,9.5\n`);
    writeFileSync(join(logs, "may.csv"), `${headings}${rows(["harbour", "Old Town", "Mill"], 2)},6,18,36,27.5,9.6\n`);
    writeFileSync(join(logs, "alone.csv"), `Grind,Dose (g),Beverage (g),Shot time (s),TDS (%)\n${rows([""], 3).replaceAll(/^,/gm, "")}`);
    const { code, out, err } = await checkLog(logs, "--output", folder);
    expect(err.replace(/^.*rows.*$/gm, "").trim()).toBe("");
    expect(code).toBe(1);
    expect(out).toContain("183 rows in 3 logs: 183 read, 0 refused. Of those read, 1 are blank and 1 look wrong.");
    const shots = table(folder, "summary.csv").filter(([kind]) => kind === "all").map(([, cafe, , count]) => [cafe, Number(count)]);
    expect(shots).toEqual([["alone", 60], ["Harbour", 50], ["Mill", 51], ["Old Town", 20], ["may", 1]]);
    expect(table(folder, "findings.csv").map((row) => [row[0], row[2], row[8]])).toEqual([["april.csv", "63", "Mill"]]);
  });

  it("is joined from the states of several machines", async () => {
    const [one, other] = [results("state-one"), results("state-other")];
    const window = ["--window", "time=25..31"];
    const files = readdirSync(chain).slice(0, 4).map((name) => join(chain, name));
    await Promise.all([
      checkLog(...files, "--output", one, ...window, "--state", join(one, "all.json")),
      ...[0, 1].map((part) => {
        const half = join(other, `${part}`);
        mkdirSync(half);
        return checkLog(...files.slice(2 * part, 2 * part + 2), "--output", half, ...window, "--state", join(half, "state.json"));
      }),
    ]);
    const states = [join(other, "0/state.json"), join(other, "1/state.json")];
    const joined = await checkLog("--merge", ...states, "--output", other, "--state", join(other, "all.json"));
    expect(joined).toMatchObject({ code: 1, err: "" });
    expect(joined.out).toContain("2000 rows in 4 logs: 2000 read, 0 refused. Of those read, 0 are blank and 40 look wrong.");
    for (const name of ["summary.csv", "all.json"]) expect(readFileSync(join(other, name)).equals(readFileSync(join(one, name)))).toBe(true);
    const said = (folder: string): unknown[] => outside.utils.sheet_to_json(outside.read(readFileSync(join(folder, "report.xlsx"))).Sheets["Cafés"]!, { header: 1 });
    expect(said(other)).toEqual(said(one));
  });

  it("joins a café whose log lies in several files", async () => {
    const folder = results("parts");
    const lines = readFileSync(join(chain, "cafe-01.csv"), "utf8").trimEnd().split("\n");
    const states = [0, 1].map((part) => {
      mkdirSync(join(folder, `${part}`));
      const file = join(folder, `${part}`, "cafe-01.csv");
      writeFileSync(file, [lines[0], ...lines.slice(1 + 250 * part, 251 + 250 * part)].join("\n"));
      return { file, state: join(folder, `${part}.json`) };
    });
    await Promise.all([checkLog(join(chain, "cafe-01.csv"), "--output", folder), ...states.map(({ file, state }) => checkLog(file, "--state", state))]);
    await checkLog("--merge", ...states.map(({ state }) => state), "--output", folder);
    // Six digits are shown, and the last of a sum may differ.
    const [parts, whole] = [table(folder, "summary.csv"), table(folder, "cafe-01-summary.csv")];
    expect(parts.map((row) => row.slice(0, 4))).toEqual(whole.map((row) => row.slice(0, 4)));
    parts.forEach((row, line) => row.slice(4).forEach((cell, at) => {
      expect(Math.abs(Number(cell) - Number(whole[line]![4 + at]))).toBeLessThanOrEqual(2e-6 * Number(cell));
    }));
  });

  it("refuses states that are none, or of different windows", async () => {
    const folder = results("states");
    const log = join(chain, "cafe-01.csv");
    const windows = { a: [], b: ["--window", "time=25..31"] };
    for (const [name, window] of Object.entries(windows)) {
      await checkLog(log, "--output", folder, "--replace", "--state", join(folder, `${name}.json`), ...window);
    }
    const good = JSON.parse(readFileSync(join(folder, "a.json"), "utf8")) as { cafes: { state: { counts: { rows: unknown } } }[] };
    good.cafes[0]!.state.counts.rows = "many";
    writeFileSync(join(folder, "c.json"), JSON.stringify(good));
    writeFileSync(join(folder, "d.json"), "{\"version\": 1");
    for (const [first, second, words] of [
      ["a", "b", /different windows/],
      ["a", "c", /c\.json is no file that --state/],
      ["d", "a", /d\.json is no file that --state/],
      ["a", "e", /e\.json cannot be read: it is gone/],
      ["a", "a", /a\.json is given twice, and would count twice\./],
    ] as const) {
      const { code, err } = await checkLog("--merge", join(folder, `${first}.json`), join(folder, `${second}.json`), "--output", folder, "--replace");
      expect([code, err]).toEqual([2, expect.stringMatching(words)]);
    }
  });

  it("gives the same bytes whatever the number of workers", async () => {
    const bytes: Buffer[][] = [];
    for (const workers of ["1", "2", "5"]) {
      const folder = results(`workers-${workers}`);
      await checkLog(chain, "--output", folder, "--workers", workers);
      expect(readdirSync(folder)).toEqual(["findings.csv", "report.xlsx", "summary.csv"]);
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
      if (replace.length > 0) expect(out).toMatch(/Left out, as results of an earlier run: \S*findings\.csv, \S*report\.xlsx, \S*summary\.csv\./);
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
    expect(table(place, "clock-findings.csv").map((row) => [row[1], row[2], row[9]!.slice(0, 25)])).toEqual([
      ["Week 1", "6", expect.stringMatching(/^Time/)], ["Week 1", "7", expect.stringMatching(/^Strength/)], ["Week 2", "3", expect.stringMatching(/^Beverage/)],
    ]);
    const [all] = table(place, "clock-summary.csv");
    expect(all!.slice(0, 4)).toEqual(["all", "clock", "6", "6"]);
  });

  it("is read where single cells cannot be: each is a finding of its row", async () => {
    const file = await workbookLog("damaged.xlsx", (workbook) => {
      workbook.addWorksheet("Shots").addRows([["Dose", "Beverage", "Time", "Setting"], ...Array.from({ length: 12 }, (_, row) => [18 + row / 10, 36, 27, "fine"])]);
    });
    const parts = unzipSync(readFileSync(file));
    const sheet = strFromU8(parts["xl/worksheets/sheet1.xml"]!);
    const broken = sheet
      .replace(/(<c r="A3"[^>]*>)<v>[^<]*</, "$1<v>NaN<")
      .replace(/(<c r="B5"[^>]*>)<v>[^<]*</, "$1<v>36,5x<")
      .replace(/<c r="C7"[^>]*><v>[^<]*</, "<c r=\"C7\" t=\"s\"><v>999<");
    writeFileSync(file, zipSync({ ...parts, "xl/worksheets/sheet1.xml": strToU8(broken) }));
    expect((await checkLog(file)).out).toContain("12 rows in the file: 12 read, 0 refused. Of those read, 0 are blank and 3 look wrong.");
    expect(table(place, "damaged-findings.csv").map((row) => [row[2], row[9]])).toEqual([
      ["3", expect.stringContaining("Dose cannot be read")], ["5", expect.stringContaining("Beverage cannot be read")],
      ["7", expect.stringContaining("Time cannot be read: “missing text 999”")],
    ]);
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
