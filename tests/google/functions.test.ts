/** The worksheet functions as a Google Sheet calls them, in two bare engines, against the same expectations as everywhere else. */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { gzipSync } from "node:zlib";
import { readDeclarations } from "../../scripts/read-declarations.ts";
import { referenceFiles, rowsOf } from "../../scripts/reference-cases.ts";
import { spelledForGoogle } from "../../src/hosts/google/spelling.ts";
import { useSpelling } from "../../src/sheet/spelling.ts";
import { expectPrinted, expectSound, expectWithin } from "../expected.ts";
import { CellError, grid, parseExample } from "../worksheet.ts";
import { asGiven, code, quickJs, rowsOfAnswer, v8, words, type Call, type ClockCell, type Engine } from "./engines.ts";

const declarations = await readDeclarations();
const engines: Engine[] = [v8(), await quickJs()];

beforeAll(() => useSpelling(spelledForGoogle));
afterAll(() => useSpelling((id) => `ESPRESSO.${id}`));

/** One of the rows of a column's refusals shows its code; a thrown error does not, so the code is that of the same call here. */
function codeOf(cell: unknown): string | undefined {
  return cell instanceof CellError ? cell.code : undefined;
}

/** All but the numbers. */
function texts(rows: unknown[][]): unknown[][] {
  return rows.map((row) => row.map((cell) => (typeof cell === "number" ? 0 : cell)));
}

describe.each(engines)("in $name", (engine) => {
  it("every reference case gives its value from outside", () => {
    const cases = referenceFiles().flatMap(({ references }) => references.flatMap((it) => it.cases));
    const answers = engine.run(cases.map((one): Call => [one.function, one.arguments.map(asGiven)]));
    expect(cases.length).toBeGreaterThan(300);
    cases.forEach((one, index) => {
      const here = grid(one.function, ...one.arguments);
      const there = rowsOfAnswer(answers[index]!, codeOf(here[0]![0]));
      try {
        expectWithin(there, rowsOf(one.expected), one);
        // The engines round powers and logarithms differently in the last digit.
        expect(texts(there)).toEqual(texts(here));
      } catch (error) {
        throw new Error(`${one.function} ${JSON.stringify(one.arguments)}: ${(error as Error).message}`, { cause: error });
      }
    });
  });

  it("every example gives what its comment prints", () => {
    const examples = declarations.flatMap((it) => it.examples).map(parseExample);
    const answers = engine.run(examples.map(({ id, cells }): Call => [id, cells.map(asGiven)]));
    examples.forEach(({ id, cells, printed }, index) => expectPrinted(rowsOfAnswer(answers[index]!, codeOf(grid(id, ...cells)[0]![0])), printed));
  });

  it("every kind of cell gives a value or an error with words, by itself and in a column", () => {
    const kinds: unknown[] = [
      null, "", 0, "abc", "18", "  ", true, "#DIV/0!", "#N/A Did not find value", -1, 1e300, 1e-300, 0.095, 9.5,
      { clock: [1899, 11, 30, 0, 0, 27] } satisfies ClockCell, { clock: [2026, 2, 1, 8, 30, 0] } satisfies ClockCell,
    ];
    const calls = declarations.flatMap(({ name, parameters, examples }) => {
      const { cells } = parseExample(examples[0]!);
      return parameters.flatMap((_, index) => kinds.flatMap((kind): Call[] => {
        const call: Call = [name, parameters.map((_, at) => (at === index ? kind : asGiven(cells[at])))];
        // The interpreter takes a minute for all columns, and the rules of a cell are the same for each.
        if (engine.interprets && index > 0) return [call];
        const first = Array.isArray(cells[index]) ? ((cells[index] as unknown[][])[0] ?? []) : [cells[index] ?? ""];
        const column = [first, first.map(() => kind ?? ""), first];
        return [call, [name, parameters.map((_, at) => (at === index ? column : asGiven(cells[at])))]];
      }));
    });
    const answers = engine.run(calls);
    expect(answers.length).toBeGreaterThan(4000);
    answers.forEach((answer, index) => {
      // The error of another cell comes out as it came in.
      if ("thrown" in answer && /^(#DIV\/0!|Did not find value)$/.test(answer.thrown)) return;
      try {
        expectSound(rowsOfAnswer(answer).map((row) => row.map((cell) => (cell instanceof CellError && cell.message === "Did not find value" ? "" : cell))));
      } catch (error) {
        throw new Error(`${JSON.stringify(calls[index])}: ${(error as Error).message}`, { cause: error });
      }
    });
  });

  it("a clock cell is read by the clock, a column keeps its errors as texts with their code, and these are read back", () => {
    const clock = { clock: [1899, 11, 30, 0, 0, 27] };
    const run = (...call: Call) => engine.run([call])[0];
    expect(run("FLOW", [36, clock])).toEqual({ thrown: expect.stringContaining("looks like a clock cell (27 s)") as string });
    expect(run("READ.SECONDS", [[[clock], ["0:31"], [""]]])).toEqual({ value: [[27], [31], [""]] });
    expect(run("RATIO", [18, 36])).toEqual({ value: 2 });
    expect(run("RATIO", [-18, 36])).toEqual({ thrown: "dose must be more than 0 g, but is -18 g." });
    const column = run("RATIO", [[[18], [-18], [""]], [[36], [36], [""]]]);
    expect(column).toEqual({ value: [[2], ["#VALUE! dose must be more than 0 g, but is -18 g."], [""]] });
    // As an argument of the next function the text is the same error again.
    expect(run("RATIO", [[[1], ["#VALUE! dose must be more than 0 g, but is -18 g."]], [[2], [2]]])).toEqual({ value: [[2], ["#VALUE! dose must be more than 0 g, but is -18 g."]] });
    expect(run("RATIO", ["#REF!", 36])).toEqual({ thrown: "#REF!" });
  });

  it("names are spelled with underscores in messages, help and lists", () => {
    const [text, source, dotted, list, standard] = engine.run([["RATIO", ["18 g", 36]], ["SOURCE", ["ESPRESSO_GRIND_FORTIME"]], ["SOURCE", ["espresso.grind.fortime"]], ["FUNCTIONS", []], ["STANDARD", ["xyz"]]]);
    expect(text).toEqual({ thrown: expect.stringContaining("ESPRESSO_READ functions") as string });
    expect(JSON.stringify(source)).toContain("ESPRESSO_GRIND_FORTIME: ");
    expect(dotted).toEqual(source);
    expect(standard).toEqual({ thrown: "No published definition matches “xyz”. ESPRESSO_STANDARD() lists them all." });
    expect(JSON.stringify([text, source, list, standard])).not.toMatch(/ESPRESSO\.[A-Z]/);
    expect((list as { value: unknown[][] }).value.length).toBe(declarations.length + 1);
  });
});

describe("units", () => {
  const property = (text: string) => `var reads = 0; var PropertiesService = { getDocumentProperties: function () { reads++; return { getProperty: function (name) { return name === "Pucksheet units" ? "${text}" : null; } }; } };`;

  it("come from the document's properties, which a run reads once", () => {
    const engine = v8(`${property("1 mass=oz time=clock")} function ESPRESSO_READS() { return reads; }`);
    const clock = { clock: [1899, 11, 30, 0, 0, 25] };
    const [refused, flow, reads] = engine.run([["RATIO", [-1, 36]], ["FLOW", [1, clock]], ["READS", []]]);
    expect(refused).toEqual({ thrown: "dose must be more than 0 oz, but is -1 oz." });
    // 1 oz is 28.349523125 g, exactly.
    expect((flow as { value: number }).value).toBeCloseTo(28.349523125 / 25, 9);
    expect(reads).toEqual({ value: 1 });
  });

  it("are the defaults, with a note, where they cannot be read", () => {
    for (const services of ["", property("9 mass=oz"), property("1 mass=pinch")]) {
      const [ratio, table] = v8(services).run([["RATIO", [18, 36]], ["UNITS", []]]);
      expect(ratio).toEqual({ value: 2 });
      expect(JSON.stringify(table)).toMatch(/default units are used/);
    }
  });
});

describe("the script", () => {
  it("has a stub and a comment for each function, which is what autocomplete reads", () => {
    for (const { name, description, parameters } of declarations) {
      const stub = new RegExp(`/\\*\\*\\n((?: \\*[^\\n]*\\n)+) \\*/\\nfunction ${spelledForGoogle(name)}\\(([^)]*)\\) \\{`).exec(code);
      expect(stub, name).not.toBeNull();
      const [, comment = "", takes] = stub!;
      expect(comment).toContain("@customfunction");
      expect(takes).toBe(parameters.map((it) => it.name).join(", "));
      for (const it of parameters) expect(comment).toMatch(new RegExp(`@param \\{any\\} \\[?${it.name}\\]? \\S`));
      expect(comment).toMatch(new RegExp(`Example: =${spelledForGoogle(name)}\\(`));
      expect(comment.slice(0, 60)).toContain(description.slice(0, 20));
      expect(comment).not.toMatch(/ESPRESSO\.[A-Z]/);
    }
  });

  it("does not begin with “use strict”, which would hide its functions", () => {
    expect(code.replace(/^\s*\/\*\*[^]*?\*\/\s*/, "")).toMatch(/^var pucksheet=/);
  });

  it("asks for no browser and no Node", () => {
    // Names that the engines above lack would only fail when they are reached.
    const outside = code.replace(/"(?:[^"\\\n]|\\.)*"|`(?:[^`\\]|\\.)*`|\/\*\*[^]*?\*\//g, '""');
    expect(outside).not.toMatch(/(?<![.\w$])(?:window|document|process|require|setInterval|fetch|self|import|navigator|XMLHttpRequest)(?![\w$])(?!:)/);
    // One place waits for listeners, which there are none of here; see the runs above, in engines without a clock.
    expect(outside.match(/(?<![.\w$])setTimeout(?![\w$])/g) ?? []).toHaveLength(0);
  });

  it("is small enough to be pasted and read at every run", () => {
    expect(gzipSync(code).length).toBeLessThan(100_000);
    expect(gzipSync(words).length).toBeLessThan(30_000);
  });
});
