/** Check this installation: a hundred values from outside this project, calculated here and counted. */
import { defaultUnits, measureNames, unitBeside } from "../sheet/unit-choice";
import { call, firstOf, quoted, say } from "./formulas";
import type { ReadySheet } from "./ready-sheet";
import { unitFormula, type SheetBuilder } from "./sheet-builder";
import type { SheetDescription } from "./sheet-description";
import { worksOut } from "./words";

export interface CheckedCase {
  readonly functionId: string;
  /** As a formula spells them. */
  readonly args: readonly string[];
  /** Row and column of the number that is compared, from 1, where the result has several. */
  readonly at?: readonly [row: number, column: number];
  readonly expected: number;
  /** Greatest difference allowed. */
  readonly tolerance: number;
  readonly source: string;
}

/** The build puts the cases in place of this, from the files that the tests read. */
declare const LIVE_CASES: readonly CheckedCase[];

const first = 8;
/** Functions that disagree are named up to so many. */
const mostNamed = 5;

function describe(sheet: SheetBuilder): SheetDescription {
  const cases = LIVE_CASES;
  const last = first + cases.length - 1;
  const [names, agree] = [`A${first}:A${last}`, `E${first}:E${last}`];
  sheet.columns([27, 18, 18, 14, 10, 78]);
  sheet.put("A1", "title", "Check this installation");

  const usual = measureNames.map((measure) => `${unitFormula(measure)}=${quoted(unitBeside(defaultUnits, measure))}`);
  const isUsual = sheet.working("Units are those of a new workbook", `AND(${usual.join(",")})`);
  const agreeing = `COUNTIF(${agree},"yes")`;
  const failing = sheet.workingColumn(["Disagrees"], `IF(${agree}="yes","",${names})`, cases.length)[0]!;
  const named = sheet.workingColumn(["Named"], `IF(ROWS(FILTER(${failing},${failing}<>"",""))>=SEQUENCE(${mostNamed}),INDEX(FILTER(${failing},${failing}<>"",""),SEQUENCE(${mostNamed}),1),"")`, mostNamed)[0]!;
  sheet.decision("F",
    firstOf([
      [`NOT(${isUsual})`, quoted("The check needs the units that a workbook starts with: choose them in the pane, or start it in a new workbook.")],
      [`${agreeing}=${cases.length}`, quoted(`All ${cases.length} values agree.`)],
    ], say`${`${cases.length}-${agreeing}`} of ${String(cases.length)} values do not agree: ${`TEXTJOIN(", ",TRUE,${named})`}${`IF(${cases.length}-${agreeing}>${mostNamed}," and others","")`}.`),
    firstOf([
      [`NOT(${isUsual})`, '""'],
      [`${agreeing}=${cases.length}`, say`Pucksheet ${call("VERSION")} calculates here what others have published or calculated.`],
    ], quoted("Load the page or the add-in anew; if they still do not agree, do not rely on those functions here, and send this sheet to whoever looks after Pucksheet.")),
  );

  sheet.put("A5", "group", worksOut);
  sheet.row("A7", "text heading", ["Function"]);
  sheet.row("B7", "heading", ["Here", "Expected", "Within", "Agrees"]);
  sheet.row("F7", "text heading", ["From"]);
  cases.forEach(({ functionId, args, at, expected, tolerance, source }, index) => {
    const row = first + index;
    const result = call(functionId, ...args);
    sheet.put(`A${row}`, "entry", functionId);
    sheet.result(`B${row}`, at ? `INDEX(${result},${at.join(",")})` : result);
    sheet.cell(`C${row}`, { role: "result", value: expected });
    sheet.cell(`D${row}`, { role: "result", value: tolerance });
    sheet.result(`E${row}`, `IFERROR(IF(ABS(B${row}-C${row})<=D${row},"yes","no"),"no")`);
    sheet.put(`F${row}`, "entry", source);
  });
  sheet.lines(`A${last + 2}`, "footnote", 150, [
    "Method: each function is called with the arguments of a published example or of an independent program, and its first number compared; within is what rounding or the print allows. All values are in conformance.json beside this program.",
  ]);
  return sheet.described({
    name: "Check this installation",
    purpose: "Run a hundred values from publications and independent programs here, and see that they agree.",
    frozenRows: 7,
    print: { area: `A1:F${last + 3}`, landscape: true, repeated: "5:7" },
  });
}

export const checkInstallation: ReadySheet = { describe, example: {} };
