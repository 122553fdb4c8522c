/** The functions as Excel runs them: the built bundle under Microsoft's own custom functions runtime, in the stand-in for Excel. */
import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { ExcelHost } from "../excel-host/open-excel.ts";

let excel: ExcelHost;
beforeAll(async () => {
  excel = await ExcelHost.launch();
});
afterAll(() => excel.close());

describe("functions in Excel", () => {
  test("answer with a value, and follow an edit", async () => {
    const book = await excel.open();
    await book.type("A1", [[18, 36, 10, "=ESPRESSO.EXTRACTION(A1,B1,C1)"]]);
    // 36 g at 10 % hold 3.6 g, which is 20 % of 18 g.
    expect(await book.value("D1")).toBeCloseTo(20, 12);
    await book.type("C1", 9);
    expect(await book.value("D1")).toBeCloseTo(18, 12);
    await book.close();
  });

  test("spill a column, and take it back when the formula goes", async () => {
    const book = await excel.open();
    await book.type("A1", [
      [18, 36, 10, "=ESPRESSO.EXTRACTION(A1:A3,B1:B3,C1:C3)"],
      [18, 36, 9],
      [20, 40, 10],
    ].map((row) => [...row, ...Array(4 - row.length).fill("")]));
    expect((await book.values("D1:D3")).flat()).toEqual([20, 18, 20].map((value) => expect.closeTo(value, 12)));
    await book.type("D1", "");
    expect((await book.values("D1:D3")).flat()).toEqual(["", "", ""]);
    await book.close();
  });

  test("feed one another within a formula and between cells", async () => {
    const book = await excel.open();
    await book.type("A1", [[18, 36, 10, "=ESPRESSO.RATIO(A1,B1)*10", "=ESPRESSO.STRENGTH(A1,B1,ESPRESSO.EXTRACTION(A1,B1,C1))+D1"]]);
    // The strength that belongs to that extraction is the one it came from, 10 %; the ratio is 2.
    expect(await book.values("D1:E1")).toEqual([[expect.closeTo(20, 12), expect.closeTo(30, 12)]]);
    await book.close();
  });

  test("refuse in words that Excel shows beside the error", async () => {
    const book = await excel.open();
    await book.type("A1", [["much", 36, 10, "=ESPRESSO.EXTRACTION(A1,B1,C1)"]]);
    expect(await book.value("D1")).toBe("#VALUE!");
    expect(await book.message("D1")).toContain("much");
    await book.type("A1", [[18, "", 10]]);
    expect(await book.value("D1")).toBe("#N/A");
    expect(await book.message("D1")).toContain("beverage");
    await book.close();
  });

  test("let an error cell spoil only its own row", async () => {
    const book = await excel.open();
    await book.type("A1", [
      [18, 36, 10],
      [18, "=1/0", 10],
      [18, "=NA()", 10],
      [18, 36, 9],
    ]);
    await book.type("D1", "=ESPRESSO.EXTRACTION(A1:A4,B1:B4,C1:C4)");
    expect((await book.values("D1:D4")).flat()).toEqual([expect.closeTo(20, 12), "#DIV/0!", "#N/A", expect.closeTo(18, 12)]);
    await book.close();
  });

  test.each([null, 0, ""] as const)("read a blank cell that arrives as %j the same", async (blank) => {
    const book = await excel.open({ blank });
    await book.type("A1", [
      [18, 36, 10],
      ["", "", ""],
      [18, "", 10],
    ]);
    await book.type("D1", "=ESPRESSO.EXTRACTION(A1:A3,B1:B3,C1:C3)");
    expect((await book.values("D1:D3")).flat()).toEqual([expect.closeTo(20, 12), "", "#N/A"]);
    await book.close();
  });

  test("are all registered with the runtime under the names of functions.json", async () => {
    const { functions } = JSON.parse(readFileSync("dist/functions.json", "utf8")) as { functions: { id: string }[] };
    const book = await excel.open();
    const registered = await book.pane.evaluate(() => {
      const { _association } = CustomFunctions as unknown as { _association: { mappings: object } };
      return Object.keys(_association.mappings);
    });
    expect(registered.sort()).toEqual(functions.map(({ id }) => id).sort());
    await book.close();
  });

  test("wait for the workbook's units, and never calculate with others", async () => {
    const reading = "CustomPropertyCollection.getItemOrNullObject";
    const book = await excel.open({ properties: { "Pucksheet units": "1 percent=cell" }, held: [reading], early: true });
    // The runtime of custom functions is there, the units are not.
    await book.pane.waitForFunction(() => typeof CustomFunctions?.Error === "function");
    await book.start("A1", [[18, 36, 0.1, "=ESPRESSO.EXTRACTION(A1,B1,C1)", '=ESPRESSO.EXTRACTION("much",36,0.1)', '=ESPRESSO.RATIO("many",36)']]);
    await book.pane.waitForSelector("form[aria-busy]");
    expect(await book.value("D1")).toBe("#BUSY!");
    await book.host("release", reading);
    await book.settled();
    expect(await book.value("D1")).toBeCloseTo(0.2, 12);
    // Each is listed by its own name, whichever was called last.
    const problems = await book.pane.evaluate(() => globalThis.pucksheet!.recentProblems().map(({ functionName, message }) => [functionName, /much|many/.exec(message)?.[0]]));
    expect(problems).toEqual([["RATIO", "many"], ["EXTRACTION", "much"]]);
    await book.close();
  });

  test("say so where the units do not arrive, and calculate when they do", async () => {
    const reading = "CustomPropertyCollection.getItemOrNullObject";
    const book = await excel.open({ properties: { "Pucksheet units": "1 percent=cell" }, held: [reading], early: true });
    await book.pane.waitForFunction(() => typeof CustomFunctions?.Error === "function");
    await book.pane.waitForSelector("form[aria-busy]");
    await book.page.clock.install();
    await book.start("A1", [[18, 36, 0.1, "=ESPRESSO.EXTRACTION(A1,B1,C1)", "=ESPRESSO.RATIO(A1,B1)"]]);
    await book.page.clock.runFor(9_000);
    expect(await book.values("D1:E1")).toEqual([["#BUSY!", "#BUSY!"]]);
    await book.page.clock.runFor(1_500);
    await book.settled();
    expect(await book.values("D1:E1")).toEqual([["#N/A", "#N/A"]]);
    expect(await book.message("D1")).toMatch(/^The units of this workbook are not known yet, so this was not calculated\./);
    const named = await book.pane.evaluate(() => globalThis.pucksheet!.recentProblems().map(({ functionName }) => functionName));
    expect(named.sort()).toEqual(["EXTRACTION", "RATIO"]);
    await book.host("release", reading);
    await book.pane.waitForSelector("fieldset:not([disabled])");
    await book.settled();
    expect(await book.values("D1:E1")).toEqual([[expect.closeTo(0.2, 12), expect.closeTo(2, 12)]]);
    await book.close();
  });

  test("use the default units, and say so, where those of the workbook cannot be read", async () => {
    const book = await excel.open({ failing: { "CustomPropertyCollection.getItemOrNullObject": "GeneralException" } });
    await book.type("A1", [[18, 36, 10, "=ESPRESSO.EXTRACTION(A1,B1,C1)"]]);
    await book.type("F1", "=ESPRESSO.UNITS()");
    expect(await book.value("D1")).toBeCloseTo(20, 12);
    expect(JSON.stringify(await book.values("F1:G12"))).toContain("could not be read");
    await book.close();
  });

  test("fetch the words about themselves when first asked, and again where that failed", async () => {
    const book = await excel.open();
    const { page } = book;
    const asked: string[] = [];
    page.on("request", (request) => asked.push(new URL(request.url()).pathname.split("/").at(-1)!));
    await book.type("A1", [[18, 36, "=ESPRESSO.RATIO(A1,B1)"]]);
    expect(asked).not.toContain("functions-words.js");
    let reached = false;
    await page.context().route("**/functions-words.js", (route) => (reached ? route.fallback() : route.abort()));
    await book.type("A3", '=ESPRESSO.SOURCE("RATIO")');
    expect(await book.value("A3")).toBe("#N/A");
    expect(await book.message("A3")).toMatch(/could not be fetched/);
    reached = true;
    await book.type("A3", '=ESPRESSO.SOURCE("EXTRACTION")');
    expect(await book.values("A3:A8")).toEqual([["Item"], ["Function"], ["Equation"], ["Source"], ["Range"], ["Caution"]]);
    expect(await book.value("B4")).toMatch(/^ESPRESSO\.EXTRACTION: /);
    await book.type("D3", '=ESPRESSO.FUNCTIONS("extraction puck")');
    expect(await book.value("D4")).toMatch(/^ESPRESSO\.EXTRACTION\.FROMPUCK\(/);
    expect(asked.filter((name) => name === "functions-words.js")).toHaveLength(2);
    expect(book.faults).toEqual([]);
    await book.close();
  });

  test("ask for nothing outside the add-in and Microsoft's library", async () => {
    const book = await excel.open();
    await book.type("A1", [[18, 36, 10, "=ESPRESSO.SHOT(A1,B1,C1)"]]);
    expect(book.outside).toEqual([]);
    expect(book.faults).toEqual([]);
    await book.close();
  });
});

describe("the stand-in for Excel", () => {
  test("refuses what came after the requirement sets of the manifest", async () => {
    const book = await excel.open();
    const refusals = await book.pane.evaluate(async () => {
      const refusal = (use: (sheet: Excel.Worksheet) => void) =>
        Excel.run(async (context) => {
          use(context.workbook.worksheets.getItem("Sheet1"));
          await context.sync();
          return "accepted";
        }).catch((error: OfficeExtension.Error) => error.code);
      return {
        later: await refusal((sheet) => sheet.getRange("A1").getSpillingToRange().load({ address: true })),
        within: await refusal((sheet) => sheet.getRange("A1").load({ values: true })),
        // The mark of this member reads 1.10, which is after 1.9.
        tenth: await refusal((sheet) => (sheet.showOutlineLevels as (rows: number, columns: number) => void)(1, 1)),
      };
    });
    expect(refusals).toEqual({ later: "ApiNotFound", within: "accepted", tenth: "ApiNotFound" });
    await book.close();
  });

  test("refuses what it does not model rather than pretending", async () => {
    const book = await excel.open();
    const message = await book.pane.evaluate(() =>
      Excel.run(async (context) => {
        context.workbook.worksheets.getItem("Sheet1").getRange("A1").clear();
        await context.sync();
        return "accepted";
      }).catch((error: Error) => error.message),
    );
    expect(message).toContain("does not model Range.clear");
    await book.close();
  });
});
