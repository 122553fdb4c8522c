import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Finding } from "../src/log-file/audit";
import { CsvLog, type CsvLogOptions } from "../src/log-file/csv-log";
import { Problem } from "../shared/problem";
import { chance, mistakes, plausibleShots } from "./simulated-log";

interface Outcome {
  readonly findings: Finding[];
  readonly state: unknown;
  readonly cafes: unknown;
  readonly notes: readonly string[];
}

function read(bytes: Uint8Array, pieceLength: number, options: CsvLogOptions): Outcome | string {
  const log = new CsvLog(options);
  const findings: Finding[] = [];
  try {
    for (let at = 0; at < bytes.length; at += pieceLength) findings.push(...log.push(bytes.subarray(at, at + pieceLength)));
    findings.push(...log.end());
  } catch (thrown) {
    if (thrown instanceof Problem) return JSON.stringify(thrown.words);
    throw thrown;
  }
  const cafes = log.audit.cafes?.map(({ cafe, sums }) => ({ cafe, state: sums.state }));
  return { findings, state: log.audit.sums.state, cafes, notes: [...log.reading.notes, ...log.audit.notes] };
}

/** The quick way against the long one, on the whole file at once. */
function expectSame(bytes: Uint8Array, pieceLength: number, options: CsvLogOptions = {}): Outcome | string {
  const slow = read(bytes, 1 << 20, { ...options, quickly: false });
  expect(read(bytes, pieceLength, options)).toEqual(slow);
  return slow;
}

/** How many lines took the quick way. */
function quickLinesOf(bytes: Uint8Array, pieceLength: number): number {
  const log = new CsvLog();
  for (let at = 0; at < bytes.length; at += pieceLength) log.push(bytes.subarray(at, at + pieceLength));
  return log.quickLines;
}

const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);
const windows = [{ measure: "time", low: 25, high: 31 }, { measure: "extraction", low: 18, high: 21 }] as const;
/** Longer than the sample from which the form of a file is found, so that the quick way is taken at all. */
const beginning = (separator: string, decimal: string, end: string): string => {
  const cells = (shot: { dose: number; beverage: number; time: number; strength: number }, row: number): string[] =>
    ["2025-03-01", String(5 + (row % 8) / 2), ...[shot.dose, shot.beverage, shot.time, shot.strength].map(String), "fine"];
  return plausibleShots(1700, 4).map((shot, row) => cells(shot, row).map((cell) => cell.replace(".", decimal)).join(separator) + end).join("");
};
const heading = (separator: string, end: string): string => ["Date", "Setting", "Dose", "Beverage", "Time", "Strength", "Note"].join(separator) + end;

describe("the quick way through plain lines", () => {
  it("is taken", () => {
    const log = new CsvLog();
    log.push(utf8(heading(",", "\n") + beginning(",", ".", "\n")));
    // A piece that ends in the middle of a line.
    const more = utf8(beginning(",", ".", "\n"));
    log.push(more.subarray(0, more.length - 10));
    expect([log.audit.sums.counts.rows, log.quickLines]).toEqual([3399, 1699]);
    log.push(more.subarray(more.length - 10));
    expect([log.audit.sums.counts.rows, log.quickLines]).toEqual([3400, 1700]);
  });

  it("gives the same findings and sums as the long way, on lines of every kind", () => {
    const anything = fc.oneof(
      fc.double({ min: 0, max: 40, noNaN: true }).map((value) => value.toFixed(1)),
      fc.constantFrom("30", "5", "150", "2.5", "20", "120", "018", "18.", ".5", "1e1", "-3", "+3", "0", "0.0", " 18", "18 ", "18,2", "1,234", "18 g", "0:27", "", "x"),
    );
    // Often what a shot has, now and then with more digits than a number keeps.
    const near = (value: number): fc.Arbitrary<string> => fc.oneof(
      { weight: 5, arbitrary: fc.integer({ min: -9, max: 9 }).map((tenth) => (value + tenth / 10).toFixed(1)) },
      { weight: 2, arbitrary: anything },
      { weight: 1, arbitrary: fc.stringMatching(/^\d{14,19}$/).map((digits) => `${value}.${digits}`) },
    );
    const setting = fc.constantFrom("6", "6.0", "6.5", " 6 ", "fine", "Fine", "", "6,5", "a\u0001b", "mühle", "\"6\"", "a\"b");
    const note = fc.constantFrom("", "fine", "a b", "café", "\"a, b\"", "\"open", "close\"", "x,y", "tab\t", "12\" tamper", "a\rb");
    const line = fc.tuple(fc.constantFrom("2025-03-01", "2025.03.01", ""), setting, near(18), near(36), near(27), near(9), note).map((cells) => cells.join(","));
    const short = fc.constantFrom(
      "", ",,,,,,", "just words", "2025-03-01,6,18,36", heading(",", ""), "2025-03-01,6,18,36,27,9.5,,", "2025-03-01,6,18,36,27,9.5,,extra", "\"", "\"\"",
    );
    const good = fc.constantFrom(...beginning(",", ".", "").match(/2025-03-01,[^f]*fine/g)!.slice(0, 40));
    const any = fc.oneof({ weight: 6, arbitrary: good }, { weight: 3, arbitrary: line }, { weight: 1, arbitrary: short });
    const lines = fc.array(any, { minLength: 1, maxLength: 150 });
    const end = fc.constantFrom("\n", "\r\n", "\r");
    let quick = 0;
    fc.assert(fc.property(lines, end, fc.boolean(), fc.integer({ min: 1, max: 3000 }), (some, lineEnd, closed, pieceLength) => {
      const text = heading(",", lineEnd) + beginning(",", ".", lineEnd) + some.join(lineEnd) + (closed ? lineEnd : "");
      expectSame(utf8(text), pieceLength, { windows });
      quick += quickLinesOf(utf8(text), pieceLength);
    }), { numRuns: 80 });
    expect(quick).toBeGreaterThan(1000);
  });

  it.each([[";", ","], [";", "."], ["\t", ","], ["|", "."], [",", "."]])("reads cells between “%s” with “%s” in numbers as the long way does", (separator, decimal) => {
    const odd = ["2025-03-01", "6", "18.2", "36,4", "27", "9.5", ""].join(separator);
    for (const end of ["\n", "\r\n"]) {
      const good = beginning(separator, decimal, end);
      const outcome = expectSame(utf8(heading(separator, end) + good + odd + end + good), 4096, { windows }) as Outcome;
      expect((outcome.state as { counts: { rows: number } }).counts.rows).toBe(3401);
    }
  });

  it("gives the same on a simulated log with every kind of mistake", () => {
    const kinds = Object.values(mistakes);
    const luck = chance(7);
    const shots = plausibleShots(6000, 8);
    const rows = shots.map((shot, row) => (row % 7 === 6 ? kinds[row % kinds.length]!(shot, shots[row - 1]!, luck) : shot));
    const text = rows.map(({ dose, beverage, time, strength }, row) => `2025,${row % 5},${dose},${beverage},${time},${strength},\n`).join("");
    const outcome = expectSame(utf8(heading(",", "\n") + text), 10_000, { windows }) as Outcome;
    expect(outcome.findings.length).toBeGreaterThan(800);
  });

  it.each<[string, string, CsvLogOptions]>([
    ["ounces and minutes", "Setting,Dose (oz),Beverage (oz),Time (min),TDS\n6,0.64,1.27,0.45,9.5\n", {}],
    ["no strength and no setting", "Dose,Beverage,Time\n18,36,27\n", {}],
    ["no time", "Setting,Dose,Beverage,TDS\n6,18,36,9.5\n", {}],
    ["headings that are numbers", "1,2,3\n18,36,27\n1,2,3\n", { columns: { dose: "1", beverage: "2", time: "3" } }],
    ["a separator of its own", "sep=;\nSetting;Dose;Beverage;Time\n6;18;36;27\n", {}],
  ])("gives the same with %s", (_, text, options) => {
    const [first, ...rows] = text.trimEnd().split("\n");
    expectSame(utf8(`${first}\n${`${rows.join("\n")}\n`.repeat(6000)}`), 5000, options);
  });

  it("gives the same of every café that a column names", () => {
    const cafe = fc.constantFrom("Harbour", "harbour", " Mill ", "12", "12.0", "", "Mühle", "\"Old, Town\"");
    const numbers = fc.constantFrom("18,36,27,9.5", "18.1,36.2,28.5,9.4", "18,360,27,9.5", "18,36,x,9.5", "18,,27,", ",,,", "18,36,27,9.5,7,8");
    const lines = fc.array(fc.tuple(cafe, fc.constantFrom("6", "6.5", ""), numbers).map((cells) => cells.join(",")), { minLength: 1, maxLength: 120 });
    const beginning = plausibleShots(2500, 5).map(({ dose, beverage, time, strength }, row) =>
      `${["Harbour", "Mill", "Old Town"][row % 3]},${6 + (row % 2)},${dose},${beverage},${time},${strength}\n`).join("");
    fc.assert(fc.property(lines, fc.integer({ min: 1, max: 3000 }), (some, pieceLength) => {
      const bytes = utf8(`Site,Setting,Dose,Beverage,Time,Strength\n${beginning}${some.join("\n")}\n`);
      const outcome = expectSame(bytes, pieceLength, { windows }) as Outcome;
      const cafes = outcome.cafes as { state: { counts: Record<string, number> } }[];
      const { counts } = outcome.state as { counts: Record<string, number> };
      for (const [name, count] of Object.entries(counts)) expect(cafes.reduce((sum, { state }) => sum + state.counts[name]!, 0)).toBe(count);
      expect(quickLinesOf(bytes, pieceLength)).toBeGreaterThan(500);
    }), { numRuns: 40 });
  });

  it("counts a log as one where a column has too many names to be cafés", () => {
    const text = Array.from({ length: 9000 }, (_, row) => `till ${row % 2500},6,18,36,${25 + (row % 7)},9.5\n`).join("");
    const outcome = expectSame(utf8(`Shop,Setting,Dose,Beverage,Time,Strength\n${text}`), 50_000, { windows }) as Outcome;
    expect(outcome.cafes).toBeUndefined();
    expect(outcome.notes.join(" ")).toContain("“Shop” has more than 2000 different values");
  });

  it("gives the same in other encodings, and where letters beyond ASCII come late", () => {
    const text = heading(",", "\n") + beginning(",", ".", "\n") + "2025,Mühle,18,36,27,9.5,café\n" + beginning(",", ".", "\n") + "2025,6,18,360,27,9.5,\n";
    expectSame(utf8(`\ufeff${text}`), 1000);
    expectSame(Uint8Array.from(text, (letter) => letter.charCodeAt(0)), 1000);
    expectSame(new Uint8Array(Uint16Array.from(`\ufeff${text}`, (letter) => letter.charCodeAt(0)).buffer), 1000);
    // A single broken letter among good ones.
    const bytes = utf8(text);
    expectSame(Uint8Array.from([...bytes, 0x32, 0x2c, 0xe9, 0x0a, ...bytes]), 1000);
  });

  it("gives the same where there are too many settings", () => {
    const text = Array.from({ length: 25_000 }, (_, row) => `2025,shot ${row % 12_000},18,36,${25 + (row % 7)},9.5,\n`).join("");
    expectSame(utf8(heading(",", "\n") + text), 100_000, { windows });
  });

  it("gives up on a line that does not end, as the long way does", () => {
    const text = heading(",", "\n") + beginning(",", ".", "\n") + "9".repeat(2_500_000) + "\n" + beginning(",", ".", "\n");
    expectSame(utf8(text), 300_000);
  });
});
