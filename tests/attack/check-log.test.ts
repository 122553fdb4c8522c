/** check-log at the hands of the unlucky: ended in the middle, no room left, a log that is its own result, pipes. */
import { execFileSync, spawn, type ChildProcess } from "node:child_process";
import { once } from "node:events";
import { linkSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, truncateSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { Outputs } from "../../src/hosts/command-line/outputs";
import { packed } from "../copies/packed";

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "pucksheet-attack-"));
});
afterEach(() => rmSync(folder, { recursive: true }));

const heading = "setting,dose,beverage,time,strength,note\n";
const good = "6,18,36,27,9.5,\n";
/** What is wrong with this row takes some reading, and some room to say. */
const odd = "6,18,2,\"fast\",9500,\"a note, as long as notes are when somebody wonders\"\n";

function logOf(name: string, ...rows: string[]): string {
  const file = join(folder, name);
  writeFileSync(file, heading + rows.join(""));
  return file;
}

interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Starts the command. With `blocks`, no file it writes can have more of them, 512 bytes each: to a program that is a full disk. */
function start(args: readonly string[], { blocks }: { blocks?: number } = {}): ChildProcess {
  const command = [process.execPath, resolve("scripts/check-log.mjs"), ...args];
  const limited = blocks === undefined ? command : ["sh", "-c", `ulimit -f ${blocks}; exec "$@"`, "sh", ...command];
  return spawn(limited[0]!, limited.slice(1), { cwd: folder, stdio: "pipe" });
}

async function ended(child: ChildProcess): Promise<Ended> {
  let [out, err] = ["", ""];
  child.stdout!.on("data", (piece) => (out += String(piece)));
  child.stderr!.on("data", (piece) => (err += String(piece)));
  const [code] = (await once(child, "close")) as [number | null];
  return { code, out, err };
}

const run = (args: readonly string[], options?: { blocks?: number }): Promise<Ended> => ended(start(args, options));
const names = (): string[] => readdirSync(folder).sort();

describe("ended in the middle", () => {
  it.each([["SIGINT", 130], ["SIGTERM", 143], ["SIGHUP", 129]] as const)("by %s it leaves nothing", async (signal, code) => {
    const child = start([logOf("long.csv", odd.repeat(40_000))]);
    child.stderr!.once("data", () => child.kill(signal));
    const end = await ended(child);
    expect(end.err).toContain("Stopped. Nothing was written.");
    expect([end.code, end.out]).toEqual([code, ""]);
    expect(names()).toEqual(["long.csv"]);
  });

  it("by a kill while results take their places it never leaves results of two runs side by side", async () => {
    const log = logOf("shots.csv", good, odd);
    await run([log]);
    const results = ["shots-findings.csv", "shots-summary.csv"];
    const contents = (): (string | undefined)[] => results.map((name) => (names().includes(name) ? readFileSync(join(folder, name), "utf8") : undefined));
    const earlier = contents();
    logOf("shots.csv", good, good.replace("36", "37"), odd, odd);
    // Three earlier results are moved away and three new ones in: ended with some away, and with some in.
    for (const move of [1, 2, 4, 5]) {
      const killing = `import fs from "node:fs"; import { syncBuiltinESMExports } from "node:module"; const rename = fs.renameSync; let moves = 0;
        fs.renameSync = (...places) => { rename(...places); if (++moves === ${move}) process.kill(process.pid, "SIGKILL"); }; syncBuiltinESMExports();`;
      const child = spawn(process.execPath, [
        "--import", `data:text/javascript,${encodeURIComponent(killing)}`, resolve("scripts/check-log.mjs"), log, "--replace",
      ], { cwd: folder, stdio: "pipe" });
      expect((await ended(child)).code).toBe(null);
      const left = contents();
      const areEarlier = left.map((content, index) => (content === undefined ? undefined : content === earlier[index]));
      expect(new Set(areEarlier.filter((it) => it !== undefined)).size).toBeLessThanOrEqual(1);
      // The next turn begins with the earlier results again.
      results.forEach((name, index) => writeFileSync(join(folder, name), earlier[index]!));
      writeFileSync(join(folder, "shots-report.xlsx"), "");
      for (const name of names().filter((it) => it.startsWith("."))) rmSync(join(folder, name), { recursive: true });
    }
    expect((await run([log, "--replace"])).code).toBe(1);
    expect(contents().map((content, index) => content === earlier[index])).toEqual([false, false]);
    expect(names()).toEqual(["shots-findings.csv", "shots-report.xlsx", "shots-summary.csv", "shots.csv"]);
  });

  it("by a result that cannot take its place it leaves the earlier results as they were", () => {
    const file = (name: string, content: string): void => writeFileSync(join(folder, name), content);
    file("a.csv", "earlier a");
    file("b.csv", "earlier b");
    const outputs = Outputs.begin(folder, ["a.csv", "b.csv"], { logs: [], replace: true });
    writeFileSync(outputs.path("a.csv"), "new a");
    // b.csv was never written.
    expect(() => outputs.finish()).toThrow();
    outputs.discard();
    expect(names().map((name) => [name, readFileSync(join(folder, name), "utf8")])).toEqual([["a.csv", "earlier a"], ["b.csv", "earlier b"]]);
  });

  it("writes over no folder that has the name of a result", async () => {
    mkdirSync(join(folder, "shots-summary.csv"));
    const end = await run([logOf("shots.csv", good), "--replace"]);
    expect([end.code, end.err.trim()]).toEqual([2, `${join(folder, "shots-summary.csv")} is a folder, so no result can be written there.`]);
  });

  it("by a kill it leaves nothing under the name of a result", async () => {
    const log = logOf("long.csv", odd.repeat(40_000));
    writeFileSync(join(folder, "long-summary.csv"), "of an earlier run");
    const child = start([log, "--replace"]);
    child.stderr!.once("data", () => child.kill("SIGKILL"));
    await ended(child);
    expect(names().filter((name) => !name.startsWith(".check-log-"))).toEqual(["long-summary.csv", "long.csv"]);
    expect(readFileSync(join(folder, "long-summary.csv"), "utf8")).toBe("of an earlier run");
    // What it left is in nobody's way.
    logOf("long.csv", odd);
    expect((await run([log, "--replace"])).code).toBe(1);
  });

  it("by a full disk it says so and leaves nothing", async () => {
    const { code, out, err } = await run([logOf("long.csv", odd.repeat(10_000))], { blocks: 2048 });
    expect(err).toMatch(/long-findings\.csv cannot be written: (?:the file has become larger than|the disk is full)/);
    expect([code, out]).toEqual([2, ""]);
    expect(names()).toEqual(["long.csv"]);
  });

  it("by a log that is cut short it says so and leaves nothing", async () => {
    const log = logOf("long.csv", odd.repeat(40_000));
    const child = start([log]);
    child.stderr!.once("data", () => truncateSync(log, 1000));
    const { code, out, err } = await ended(child);
    expect(err).toMatch(/long\.csv was cut short while it was read: it had \d+ bytes and ended after \d+\./);
    expect([code, out]).toEqual([2, ""]);
    expect(names()).toEqual(["long.csv"]);
  });
});

describe("a result that would be the log", () => {
  it.each([
    ["a link", symlinkSync],
    ["another name", linkSync],
  ])("through %s is refused", async (_, link) => {
    const log = logOf("north.csv", good);
    link(log, join(folder, "north-findings.csv"));
    const { code, err } = await run([log, "--replace"]);
    expect(err).toMatch(/north-findings\.csv would be written over, but is the log .*north\.csv itself/);
    expect(code).toBe(2);
    expect(readFileSync(log, "utf8")).toBe(heading + good);
    expect(names()).toEqual(["north-findings.csv", "north.csv"]);
  });

  it("is found through a linked folder too", async () => {
    const log = logOf("a-findings.csv", good);
    symlinkSync(folder, join(folder, "round"));
    symlinkSync(log, join(folder, "a.csv"));
    const { code, err } = await run(["a.csv", "--output", "round", "--replace"]);
    expect(err).toMatch(/a-findings\.csv would be written over/);
    expect([code, readFileSync(log, "utf8")]).toEqual([2, heading + good]);
  });

  it("leaves alone what a link in the place of a result leads to", async () => {
    const log = logOf("north.csv", good);
    const other = join(folder, "other.txt");
    writeFileSync(other, "mine");
    symlinkSync(other, join(folder, "north-findings.csv"));
    expect((await run([log, "--replace"])).code).toBe(0);
    expect(readFileSync(other, "utf8")).toBe("mine");
  });
});

describe("what is no file", () => {
  it("is read from standard input", async () => {
    const child = start(["-"]);
    child.stdin!.write(heading + good);
    child.stdin!.end(odd);
    const { code, out } = await ended(child);
    expect(out).toContain("2 rows in the file: 2 read, 0 refused. Of those read, 0 are blank and 1 look wrong.");
    expect(code).toBe(1);
    expect(names()).toEqual(["log-findings.csv", "log-report.xlsx", "log-summary.csv"]);
  });

  it("is read from a pipe with a name", async () => {
    execFileSync("mkfifo", [join(folder, "pipe")]);
    const reading = run(["pipe"]);
    writeFileSync(join(folder, "pipe"), heading + good);
    expect((await reading).code).toBe(0);
    expect(names()).toEqual(["log-findings.csv", "log-report.xlsx", "log-summary.csv", "pipe"]);
  });

  it("is refused in words where it holds nothing, or never ends", async () => {
    const child = start(["-"]);
    child.stdin!.end();
    expect(await ended(child)).toMatchObject({ code: 2, err: "The file is empty.\n" });
    mkdirSync(join(folder, "logs"));
    expect(await run(["logs"])).toMatchObject({ code: 2, err: "There are no logs (.csv, .xlsx, .xlsm) in logs.\n" });
    expect(await run(["/dev/zero"])).toMatchObject({ code: 2, err: "/dev/zero is neither a file nor a folder.\n" });
    expect(await run(["gone.csv"])).toMatchObject({ code: 2, err: "There is no file or folder gone.csv.\n" });
  });
});

describe("a workbook that was made to do harm", () => {
  const sheetPart = "xl/worksheets/sheet1.xml";
  const rowOf = (cells: string): string => `<sheetData><row r="1">${cells}</row></sheetData>`;
  /** With a number of the sheet's entry in the directory written over: its size when packed at 20, when unpacked at 24, where it stands at 42. */
  const withInDirectory = (at: number, value: number): Uint8Array => {
    const bytes = Buffer.from(packed({ sheet: rowOf("<c/>".repeat(100)) }));
    bytes.writeUInt32LE(value, bytes.lastIndexOf(sheetPart) - 46 + at);
    return bytes;
  };
  const spaces = new Uint8Array(100_000_000).fill(32);

  const harmful: readonly [string, () => Uint8Array, RegExp][] = [
    ["spaces", () => packed({ parts: { [sheetPart]: spaces } }), /part “xl\/worksheets\/sheet1\.xml” could not be read \(one of its elements is longer than/],
    ["endless", () => packed({ sheet: "<sheetData/>", strings: `<si><t>${"x".repeat(20_000_000)}</t></si>` }), /part “xl\/sharedStrings\.xml” could not be read/],
    ["pieces", () => packed({ sheet: rowOf(`<c t="inlineStr"><is>${`<t>${"x".repeat(1000)}</t>`.repeat(5000)}</is></c>`) }), /one of its texts is longer than/],
    ["deep", () => packed({ sheet: "<a>".repeat(500_000) }), /lie more than 100000 deep within one another/],
    ["styles", () => packed({ styles: " ".repeat(34_000_000) }), /unpacks to more than/],
    ["wide", () => packed({ sheet: rowOf(`<c t="b"><v>1</v></c>`.repeat(20_000)) }), /the cell 16,385, and a sheet has/],
    ["beyond", () => packed({ sheet: rowOf(`<c r="XFE1"><v>1</v></c>`) }), /the cell XFE1/],
    ["long", () => packed({ sheet: `<sheetData>${"<row/>".repeat(1_050_000)}</sheetData>` }), /a row with the number 1,048,577/],
    ["again", () => packed({ sheet: `<sheetData>${`<row r="3"/>`.repeat(1_050_000)}</sheetData>` }), /more than 1,048,576 rows/],
    ["smaller", () => withInDirectory(24, 100), /is damaged/],
    ["larger", () => withInDirectory(24, 4_000_000_000), /is damaged/],
    ["packed", () => withInDirectory(20, 4_000_000_000), /is damaged/],
    ["outside", () => withInDirectory(42, 4_000_000_000), /is damaged/],
  ];

  it("is refused in words, whatever the harm, in memory that does not grow, and the other logs are read", async () => {
    logOf("good.csv", good);
    for (const [name, bytes] of harmful) writeFileSync(join(folder, `${name}.xlsx`), bytes());
    const saying = "process.on('exit', () => console.error(process.resourceUsage().maxRSS + ' kB at most'))";
    const one = spawn(process.execPath, ["--import", `data:text/javascript,${saying}`, resolve("scripts/check-log.mjs"), ".", "--workers", "1"], { cwd: folder });
    const { code, out, err } = await ended(one);
    for (const [name, , words] of harmful) {
      const said = out.split("\n").find((line) => line.startsWith(`${name}.xlsx is NOT READ: `));
      expect([name, said]).toEqual([name, expect.stringMatching(words)]);
    }
    expect(out).toContain("1 rows in the file: 1 read");
    expect(code).toBe(2);
    // Node itself with the command takes some 80 MB; held whole, as bytes and as text, the first of these alone would take 200 MB more.
    expect(Number(/(\d+) kB at most/.exec(err)![1])).toBeLessThan(270_000);
  });
});
