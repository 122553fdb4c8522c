import fc from "fast-check";
import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import { Problem } from "../shared/problem";
import { messageOf } from "./problem-of";
import { LogAudit, type Finding } from "../src/log-file/audit";
import { columnsOf, type ChosenColumns } from "../src/log-file/columns";
import { CsvReading, type CsvRow } from "../src/log-file/csv-reading";
import { csvLines } from "../src/log-file/csv-writing";

const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);
const latin1 = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));
const utf16 = (text: string): Uint8Array => new Uint8Array(Uint16Array.from(text, (letter) => letter.charCodeAt(0)).buffer);

function readAll(bytes: Uint8Array, pieceLength = 1 << 16, given?: ConstructorParameters<typeof CsvReading>[0]): { rows: CsvRow[]; reading: CsvReading } {
  const reading = new CsvReading(given);
  const rows: CsvRow[] = [];
  for (let at = 0; at < bytes.length; at += pieceLength) rows.push(...reading.push(bytes.subarray(at, at + pieceLength)));
  rows.push(...reading.end());
  return { rows, reading };
}

const cellsOf = (text: string | Uint8Array, pieceLength?: number): (readonly string[])[] =>
  readAll(typeof text === "string" ? utf8(text) : text, pieceLength).rows.map((row) => row.cells);

function refusal(run: () => unknown): string {
  try {
    return `answered ${JSON.stringify(run())}`;
  } catch (thrown) {
    if (thrown instanceof Problem) return messageOf(thrown);
    throw thrown;
  }
}

const small = "dose,beverage,time\n18,36,27\n18.2,36.4,26\n";
const smallCells = [["dose", "beverage", "time"], ["18", "36", "27"], ["18.2", "36.4", "26"]];

describe("reading a .csv", () => {
  it.each([
    ["UTF-8", utf8(small)],
    ["UTF-8 with its mark", utf8(`\ufeff${small}`)],
    ["UTF-16 with its mark", utf16(`\ufeff${small}`)],
    ["UTF-16 without it", utf16(small)],
    ["line ends of Windows", utf8(small.replaceAll("\n", "\r\n"))],
    ["line ends of old Macs", utf8(small.replaceAll("\n", "\r"))],
    ["no line end at the end", utf8(small.trimEnd())],
    ["semicolons", utf8(small.replaceAll(",", ";"))],
    ["tabs", utf8(small.replaceAll(",", "\t"))],
    ["upright bars", utf8(small.replaceAll(",", "|"))],
    ["its separator declared", utf8(`sep=;\r\n${small.replaceAll(",", ";")}`)],
    ["every cell in quotes", utf8(small.replace(/[^,\n]+/g, "\"$&\""))],
  ])("takes %s", (_, bytes) => {
    for (const pieceLength of [1, 7, 1 << 16]) expect(cellsOf(bytes, pieceLength)).toEqual(smallCells);
  });

  it("tells decimal commas between semicolons from columns", () => {
    const { rows, reading } = readAll(utf8("18,2;36,4;27,5\n18,0;36,1;26,0\n"));
    expect(reading.form).toEqual({ separator: ";", decimal: ",", width: 3 });
    expect(rows[0]!.cells).toEqual(["18,2", "36,4", "27,5"]);
  });

  it.each([
    ["a comma log whose notes hold semicolons", "Dose,Beverage,Note\n18,36,sour; thin\n18.2,36.4,bitter; dry\n18.1,36.2,fine; sweet\n", ",", "."],
    ["the same with a heading that no log has", "a,b,c\n18,36,sour; thin\n18.2,36.4,bitter; dry\n18.1,36.2,fine; sweet\n", ",", "."],
    ["a semicolon log with decimal commas whose notes hold commas", "Dosis;Getränk;Notiz\n18,2;36,4;sauer, dünn\n18,1;36,2;bitter\n", ";", ","],
    ["thousands in quotes between commas", "name,sold\nnorth,\"356,064\"\nsouth,\"12,300\"\n", ",", "."],
    ["decimal commas in quotes between commas", "name,mass\nnorth,\"18,25\"\nsouth,\"18,2\"\n", ",", ","],
    ["two headings that are alike", "Dose,Dose,Beverage\n18;a,18;b,36;c\n", ",", "."],
  ])("finds the form of %s", (_, text, separator, decimal) => {
    expect(readAll(utf8(text)).reading.form).toMatchObject({ separator, decimal });
  });

  it("reads Windows Western European and says so, also where the first accent comes late", () => {
    const text = `dose,note\n${"18,plain\n".repeat(300_000)}18,café\n`;
    const { rows, reading } = readAll(latin1(text));
    expect(rows.at(-1)!.cells).toEqual(["18", "café"]);
    expect(reading.notes).toEqual(["The file is not UTF-8, so it was read as Windows Western European; check letters with accents."]);
  });

  it("keeps UTF-8 where a single letter is broken, and says so", () => {
    const { rows, reading } = readAll(Uint8Array.from([...utf8(`dose,note\n18,café\n${"18,x\n".repeat(500)}`), ...latin1("18,\u00e9\n")]), 1024);
    expect(rows[1]!.cells).toEqual(["18", "café"]);
    expect(rows.at(-1)!.cells).toEqual(["18", "\ufffd"]);
    expect(reading.notes[0]).toMatch(/^Some letters are not UTF-8/);
  });

  it("does not break a letter that lies across two pieces", () => {
    const text = "dose,note\n18,Grüße ☕ 😀\n";
    for (let pieceLength = 1; pieceLength < 12; pieceLength++) expect(cellsOf(text, pieceLength)).toEqual([["dose", "note"], ["18", "Grüße ☕ 😀"]]);
  });

  it("keeps what is in quotes together: separators, doubled quotes, line ends", () => {
    const { rows } = readAll(utf8("dose,note\n18,\"a, b\"\n19,\"said \"\"fine\"\"\"\n20,\"two\nlines\"\n21,12\" tamper\n"));
    expect(rows.map(({ cells }) => cells[1])).toEqual(["note", "a, b", "said \"fine\"", "two\nlines", "12\" tamper"]);
    expect(rows.map(({ line }) => line)).toEqual([1, 2, 3, 4, 6]);
  });

  it("loses one row only to a quote that is never closed", () => {
    const lines = Array.from({ length: 5000 }, (_, row) => `${row},36,27`);
    lines[1000] = "1000,\"36,27";
    const { rows } = readAll(utf8(`dose,beverage,time\n${lines.join("\n")}\n`), 4096);
    expect(rows).toHaveLength(5001);
    expect(rows.filter((row) => row.refused)).toEqual([
      { line: 1002, cells: expect.anything() as string[], refused: "A quotation mark in this row is not closed, or stands in the wrong place." },
    ]);
    expect(rows.at(-1)!.cells).toEqual(["4999", "36", "27"]);
  });

  it("loses two rows only to two quotes that look like one long cell", () => {
    const lines = Array.from({ length: 100 }, (_, row) => `${row},36,27`);
    lines[10] = "10,\"36,27";
    lines[20] = "20,36,\"27";
    const { rows } = readAll(utf8(`dose,beverage,time\n${lines.join("\n")}\n`));
    expect(rows).toHaveLength(101);
    expect(rows.filter((row) => row.refused).map(({ line }) => line)).toEqual([12, 22]);
  });

  it("gives up on a line that does not end, and reads on after it, whatever its length", () => {
    const reading = new CsvReading();
    const rows = reading.push(utf8("dose,beverage\n18,36\n"));
    const before = process.memoryUsage().arrayBuffers + process.memoryUsage().heapUsed;
    const piece = utf8("9".repeat(1 << 20));
    // A gigabyte in one line.
    for (let megabyte = 0; megabyte < 1024; megabyte++) rows.push(...reading.push(piece));
    const grown = process.memoryUsage().arrayBuffers + process.memoryUsage().heapUsed - before;
    rows.push(...reading.push(utf8("\n18,37\n")), ...reading.end());
    expect(rows.map(({ line }) => line)).toEqual([1, 2, 3, 4]);
    expect(rows[2]!.refused).toBe(`This line is ${1024 * 1024 * 1024} characters long; a row may have 1000000.`);
    expect(rows[3]!.cells).toEqual(["18", "37"]);
    // What a collector has not yet swept may lie about; a line that was kept would be eight times this.
    expect(grown).toBeLessThan(128 * 1024 * 1024);
  });

  it.each<[string, Uint8Array, RegExp]>([
    ["an .xlsx", Uint8Array.from([0x50, 0x4b, 0x03, 0x04, ...new Array<number>(50).fill(7)]), /packed file, perhaps an \.xlsx workbook/],
    ["an .xls", Uint8Array.from([0xd0, 0xcf, 0x11, 0xe0, 1, 2]), /old \.xls workbook/],
    ["a PDF", utf8("%PDF-1.7 …"), /PDF/],
    ["a web page", utf8("<!DOCTYPE html><table>"), /web page/],
    ["a picture", Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 0, 0, 0, 13, 0, 1, 0, 0, 9, 9]), /zero bytes/],
    ["nothing", new Uint8Array(0), /is empty/],
  ])("refuses %s in words", (_, bytes, words) => expect(refusal(() => readAll(bytes))).toMatch(words));

  it("gives back whatever was written, in pieces of any length", () => {
    const cell = fc.stringMatching(/^[a-z0-9 ,;"'.\n%é☕-]{0,12}$/);
    const rowsOfCells = fc.array(fc.array(cell, { minLength: 3, maxLength: 3 }), { minLength: 1, maxLength: 30 });
    fc.assert(fc.property(rowsOfCells, fc.integer({ min: 1, max: 64 }), (cells, pieceLength) => {
      const rows = [["a", "b", "c"], ...cells];
      const bytes = utf8(Papa.unparse(rows, { newline: "\n" }));
      expect(readAll(bytes, pieceLength, { separator: "," }).rows.map((row) => row.cells)).toEqual(rows);
    }), { numRuns: 300 });
  });

  it("brings every line of any text out in exactly one row", () => {
    const text = fc.stringMatching(/^[a1",;\n ]{1,200}$/);
    fc.assert(fc.property(text, fc.integer({ min: 1, max: 64 }), (anything, pieceLength) => {
      const { rows } = readAll(utf8(anything), pieceLength, { separator: "," });
      const lines = anything.endsWith("\n") ? anything.slice(0, -1).split("\n") : anything.split("\n");
      let next = 1;
      for (const row of rows) {
        expect(row.line).toBe(next);
        next += row.refused ? 1 : 1 + row.cells.join("").split("\n").length - 1;
      }
      expect(next).toBe(lines.length + 1);
    }), { numRuns: 1000 });
  });
});

describe("finding the columns", () => {
  const mapped = (row: string[], chosen: ChosenColumns = {}): Record<string, number> | undefined => {
    const columns = columnsOf(row, chosen);
    return columns && Object.fromEntries(Object.entries(columns).map(([field, column]) => [field, column.index]));
  };

  it.each<[string[], Record<string, number>]>([
    [["Date", "Dose (g)", "Out (g)", "Shot time", "TDS %", "Grind"], { dose: 1, beverage: 2, time: 3, strength: 4, setting: 5 }],
    [["Date", "Time", "Dose", "Yield", "Shot time [s]", "Extraction yield %"], { dose: 2, beverage: 3, time: 4 }],
    [["Mahlgrad", "Einwaage g", "Getränk g", "Zeit s", "Stärke %"], { setting: 0, dose: 1, beverage: 2, time: 3, strength: 4 }],
    [["in_g", "out_g", "sec", "strength"], { dose: 0, beverage: 1, time: 2, strength: 3 }],
  ])("by the words of %j", (row, columns) => expect(mapped(row)).toEqual(columns));

  it("takes the unit from the heading", () => {
    const columns = columnsOf(["Dose (oz)", "Beverage, oz", "Time (min)"], {})!;
    expect([columns.dose!.bareUnit, columns.beverage!.bareUnit, columns.time!.bareUnit]).toEqual([28.349523125, 28.349523125, 60]);
  });

  it("takes the word of whoever opens the log over its own", () => {
    expect(mapped(["Dose", "A", "B", "Out"], { beverage: "b", time: "2" })).toEqual({ dose: 0, time: 1, beverage: 2 });
    expect(mapped(["Dose", "Out"], { time: "Clock" })).toBeUndefined();
  });

  it("does not choose between two columns of the same name", () => {
    expect(refusal(() => mapped(["Dose", "Out", "Dose"]))).toMatch(/Columns 1 and 3 are both headed “dose”.*--dose 1/);
  });
});

describe("auditing a log", () => {
  function audited(text: string, chosen?: ChosenColumns): { audit: LogAudit; findings: Finding[] } {
    const audit = new LogAudit({ columns: chosen });
    const { rows, reading } = readAll(utf8(text));
    const findings = audit.add(rows, reading.form!);
    audit.end();
    return { audit, findings };
  }
  const heading = "setting,dose,beverage,time,strength\n";

  it("says nothing about a good log, blank rows and all", () => {
    const { audit, findings } = audited(`${heading}6,18,36,27,9.5\n6,18.1,36.4,0:28,9.4\n\n,,,,\n8,18 g,37 g,27 s,9.3 %\n8,18,36,26\n`);
    expect(findings).toEqual([]);
    expect(audit.notes).toEqual(["One row has fewer cells than the heading; what is missing was read as blank."]);
    expect(audit.sums.counts).toEqual({ rows: 6, read: 6, refused: 0, blank: 2, short: 1, found: 0 });
  });

  it("says on which line what looks wrong, and refuses rows that do not fit", () => {
    const { audit, findings } = audited(
      `${heading}6,18,36,0.01875,9.5\n6,18,2,36,4,27,5,9,5\njust words\n6,18,36,fast,9.5\n${heading}6,18,36,27,"9.5\n6,18.3,36.2,27,9.53\n6,18.3,36.2,27,9.53\n`,
    );
    expect(findings.map(({ line, refused }) => [line, refused])).toEqual([[2, false], [3, true], [4, true], [5, false], [6, true], [7, true], [9, false]]);
    expect(findings.map(({ words }) => words)).toEqual([
      expect.stringMatching(/^Time 0\.01875 s looks like 0:27 typed as a clock time/),
      "The row has 9 cells, but the heading has 5. Decimal commas between commas look like this.",
      "The row has one cell, but the heading has 5.",
      expect.stringMatching(/^Time cannot be read: “fast” is not a time/),
      "The heading row again.",
      expect.stringMatching(/^A quotation mark/),
      expect.stringMatching(/^Exactly the same shot/),
    ]);
    expect(findings[0]!.typed).toEqual({ setting: "6", dose: "18", beverage: "36", time: "0.01875", strength: "9.5", cafe: "" });
    expect(audit.sums.counts).toEqual({ rows: 8, read: 4, refused: 4, blank: 0, short: 0, found: 3 });
  });

  it("finds the heading below a title, and reads decimal commas and other units", () => {
    const { audit, findings } = audited("Log of the north bar\n\nSetting;Dose (oz);Beverage (oz);Time (min);TDS\nfine;0,64;1,27;0,45;9,5\nfine;0,63;1,25;0,5;9,250\n");
    expect(findings).toEqual([]);
    expect(audit.notes).toEqual(["One line above the heading row passed over."]);
    const [fine] = audit.sums.summary()[0]!.settings;
    // 0.45 and 0.5 min are 27 and 30 s.
    expect([fine!.anySetting, fine!.shots, fine!.meanTime]).toEqual(["fine", 2, 28.5]);
    expect(fine!.meanStrength).toBeCloseTo(9.375, 12);
  });

  it("summarises each setting over all rows and over those without a finding", () => {
    const { audit } = audited(`${heading}6,18,36,27,9.5\n6,18,36,2700,9.5\n10,18,36,25,9\n`);
    const [all, sound] = audit.sums.summary();
    expect(all!.settings.map((it) => [it.anySetting, it.shots])).toEqual([[6, 2], [10, 1]]);
    expect(sound!.settings.map((it) => [it.anySetting, it.shots, it.meanTime])).toEqual([[6, 1, 27], [10, 1, 25]]);
  });

  it("refuses what is no log, naming what it saw", () => {
    expect(refusal(() => audited("Name,City\nA,B\n"))).toMatch(/^This is no shot log: .*“Name”, “City”.*--dose 2/);
    expect(refusal(() => audited(`${heading}6,18,36,27,9\n`, { dose: "mass" }))).toMatch(/columns asked for \(dose “mass”\)/);
    expect(refusal(() => audited("dose,beverage,time\n18,36,27\n", { time: "2" }))).toMatch(/cannot be both beverage and time/);
    expect(refusal(() => audited("\n\n"))).toMatch(/holds no rows/);
    expect(refusal(() => audited(`${"words, and more words\n".repeat(60)}`))).toMatch(/This is no shot log/);
  });

  it("stops summarising where the column cannot be the setting", () => {
    const { audit } = audited(heading + Array.from({ length: 10_050 }, (_, row) => `shot ${row},18,36,27,9.5`).join("\n"));
    expect(audit.sums.counts.rows).toBe(10_050);
    expect(audit.notes[0]).toMatch(/“setting” has more than 10000 different values/);
  });
});

describe("writing a .csv", () => {
  it.each(["=1+1", "=cmd|' /C calc'!A0", "+SUM(A1)", "-A1", "-5 g", "- oat milk", "@SUM(1)", "\t=1", "\r=1", "--", "+49 30 1234", "-1+cmd|x", "-5-3", "-.", "=\n"])(
    "guards %j, which a spreadsheet would take for a formula",
    (text) => {
      expect(Papa.parse<string[]>(csvLines([[text, "x"]], ","), { delimiter: "," }).data[0]).toEqual([`'${text}`, "x"]);
    },
  );

  it.each(["-5", "+3.2", "-1,5", "-.5", "-1.5e-3", "-5.33E-06", "-12%", "-1,234.5", "-", "+", "5", "a=b", "", " =1", "27 s", "'quoted'", "café"])("leaves %j as it is", (text) => {
    expect(Papa.parse<string[]>(csvLines([[text, "x"]], ";"), { delimiter: ";" }).data[0]).toEqual([text, "x"]);
  });

  it("gives back every text, guarded or not, and leaves none that would run", () => {
    const cell = fc.oneof(fc.string(), fc.stringMatching(/^[=+@\t-][\d.,eE%+=A-Z(|! -]{0,12}$/));
    fc.assert(
      fc.property(fc.array(fc.array(cell, { minLength: 2, maxLength: 2 }), { minLength: 1, maxLength: 5 }), fc.constantFrom(",", ";", "\t", "|"), (rows, separator) => {
        const back = Papa.parse<string[]>(csvLines(rows, separator).slice(0, -2), { delimiter: separator, newline: "\r\n" }).data;
        back.flat().forEach((text, index) => {
          const typed = rows.flat()[index]!;
          expect([typed, `'${typed}`]).toContain(text);
          // What is left with its sign is digits, marks and an exponent: nothing in it can name or call anything.
          if (/^[=+\-@\t\r\n]./s.test(text)) expect(text).toMatch(/^[+-][\d.,]*\d[\d.,]*(e[+-]?\d+)?%?$/i);
        });
      }),
    );
  });
});
