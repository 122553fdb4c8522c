/** Log audit: a client's log as it was kept, what looks wrong in it, how steady it is, and a page to hand over. */
import { spelled } from "../sheet/spelling";
import type { Figures, ReadySheet } from "./ready-sheet";
import { unitFormula, type SheetBuilder } from "./sheet-builder";
import type { SheetDescription } from "./sheet-description";
import { typeHere, worksOut } from "./words";

const first = 6;
const rows = 60;
const charted = 100;
const findings = 12;
const mostSettings = 8;

function describe(sheet: SheetBuilder): SheetDescription {
  const { prefix } = sheet;
  const percent = sheet.format("percent");
  const time = sheet.format("time");
  const mass = sheet.format("mass");
  const column = (heading: string) => `${prefix}[${heading}]`;
  const name = (cell: string) => `${prefix}_${cell}`;
  const read = (reader: string, heading: string) => `${spelled(`READ.${reader}`)}(${column(heading)})`;
  const dose = read("GRAMS", "Dose");
  const beverage = read("GRAMS", "Beverage");
  const seconds = read("SECONDS", "Time");
  const strength = read("PERCENT", "Strength");

  sheet.put("A1", "title", "Log audit");
  sheet.put("A2", "note", "Paste the client’s log below as it is: “18,2 g”, “0:27” and “9,4 %” are read as meant.");
  sheet.put("A3", "group", typeHere);
  sheet.unitRow("A4", [undefined, undefined, "mass", "mass", "time", "percent"]);
  const unchecked = { unchecked: true } as const;
  sheet.table("", "A5", rows, [["Shot", "anySetting"], ["Setting", "anySetting"], ["Dose", "dose", unchecked], ["Beverage", "beverage", unchecked], ["Time", "time", unchecked], ["Strength", "strength", unchecked]]);

  sheet.put("H3", "group", "→ As read");
  sheet.unitRow("H4", ["mass", "mass", "time", "percent"]);
  sheet.row("H5", "heading", ["Dose", "Beverage", "Time", "Strength", "Signal"]);
  sheet.put("M5", "text heading", "What looks wrong");
  sheet.spill(`H${first}`, dose, sheet.besideRows, [mass]);
  sheet.spill(`I${first}`, beverage, sheet.besideRows, [mass]);
  sheet.spill(`J${first}`, seconds, sheet.besideRows, [time]);
  sheet.spill(`K${first}`, strength, sheet.besideRows, [percent]);
  const checked = `${spelled("LOG.CHECK")}(${["Dose", "Beverage", "Time", "Strength"].map(column).join(",")})`;
  sheet.spill(`M${first}`, checked, sheet.besideRows, [undefined]);
  const clean = `IFERROR(${seconds},"")`;
  const timed = `COUNT(${clean})`;
  const signals = `${spelled("LOG.SIGNALS")}(${clean})`;
  sheet.spill(`L${first}`, `IF(COUNT(${clean})<2,"",${signals})`, sheet.besideRows, [undefined]);

  sheet.put("O1", "title", "Log audit: report");
  sheet.put("O2", "label", "For");
  sheet.textInput("P2", "client");
  sheet.put("R2", "label", "By, on");
  sheet.textInput("S2", "auditor");

  const shots = `SUM(IF((${column("Dose")}<>"")+(${column("Beverage")}<>"")+(${column("Time")}<>"")>0,1,0))`;
  sheet.put("O3", "group", `${typeHere}: what shot time is wanted`);
  sheet.put("O4", "label", "From");
  sheet.input("P4", "low", "time", 24);
  sheet.put("R4", "label", "to");
  sheet.input("S4", "high", "time", 30);

  sheet.put("O7", "group", `${worksOut}: shot time`);
  sheet.row("O8", "heading", ["Shots", "Within", "Mean", "SD", "Pp", "Ppk"]);
  sheet.unitRow("O9", [{ words: "shots" }, "percent", "time", "time"]);
  const capability = `${spelled("LOG.CAPABILITY")}(${clean},${name("low")},${name("high")})`;
  const shares = ["0", percent, time, time, "0.00", "0.00"];
  // Shots, share inside, mean, SD overall, Pp and Ppk.
  [1, 2, 3, 5, 8, 9].forEach((column, index) => {
    const none = index === 0 ? "Paste a log with three shot times or more." : "";
    sheet.spill(`${"OPQRST"[index]!}10`, `IF(${timed}<3,"${none}",INDEX(${capability},1,${column}))`, 1, [shares[index]]);
  });
  sheet.row("O11", "heading", ["Centre", "Low limit", "High limit", "Shot to shot"]);
  sheet.spill("O12", `IF(${timed}<3,"",${spelled("LOG.LIMITS")}(${clean}))`, 1, [time, time, time, time]);
  sheet.unit("S12", "time");
  const wrong = `IFERROR(${checked},"This row holds an error.")`;
  const odd = `SUM(IF(${wrong}<>"",1,0))`;
  sheet.sentence("O13", "verdict", `IF(${shots}=0,"Nothing to audit yet.",${shots}&IF(${shots}=1," shot"," shots")&" read; "&${odd}&IF(${odd}=1," row has"," rows have")&" something to look at.")`);
  const verdict = `${spelled("LOG.VERDICT")}(${clean},${name("low")},${name("high")},${unitFormula("time")},${column("Setting")})`;
  const part = (column: number) => `INDEX(${verdict},1,${column})`;
  sheet.sentence("O14", "verdict", `IF(${timed}=0,"",${part(1)}&" "&${part(2)}&" "&${part(3)}&" Next: "&${part(4)})`);

  sheet.put("O16", "group", `What to look at, the first ${findings}`);
  sheet.put("O17", "heading", "Row");
  sheet.row("P17", "text heading", ["What looks wrong", "", "", "", "", "", "", "", ""]);
  const places = `SEQUENCE(MIN(${findings},${odd}))`;
  sheet.spill("O18", `IFERROR(INDEX(FILTER(SEQUENCE(ROWS(${column("Dose")})),${wrong}<>""),${places},1),"")`, findings, ["0"]);
  sheet.spill("P18", `IF(${shots}=0,"",IFERROR(INDEX(FILTER(${wrong},${wrong}<>""),${places},1),"Nothing stands out."))`, findings, [undefined]);

  sheet.put("O31", "group", "By setting");
  sheet.unitRow("O32", [undefined, { words: "shots" }, { words: "to 1" }, { words: "to 1" }, "time", "time", "percent", "percent", "percent", "percent"]);
  const good = (formula: string) => `IFERROR(${formula},"")`;
  sheet.spill("O33", `IF(${shots}=0,"",${spelled("LOG.SUMMARY")}(${column("Setting")},${[dose, beverage, seconds, strength].map(good).join(",")}))`, mostSettings + 1, [undefined, "0", "0.00", "0.00", time, time, percent, percent, percent, percent], true);

  const lastRow = first + charted - 1;
  const inner = (letters: string) => `${letters}${first}:${letters}${lastRow}`;
  const typed = `SUM(IF(${column("Time")}="",0,1))`;
  sheet.sentence("O43", "note", `IF(${typed}<3,"The chart fills as the log is pasted.","In words: the last "&COUNT(${inner("AC")})&" shot times; "&COUNT(${inner("AG")})&" of them signal a change (marked with a ring).")`);
  sheet.put("AB3", "group", "For the chart");
  sheet.put("AB5", "heading", "Shot time number");
  sheet.cell("AC5", { role: "heading", formula: '"Shot time, "&E4' });
  sheet.row("AD5", "heading", ["Centre", "Low limit", "High limit", "Signal", "Rules"]);
  const number = inner("AB");
  sheet.chartData(`AB${first}`, `IF(SEQUENCE(${charted})<=${typed},MAX(0,${typed}-${charted})+SEQUENCE(${charted}),NA())`, charted, ["0"]);
  const pick = (values: string) => `IF(ISNUMBER(${number}),INDEX(FILTER(${values},${column("Time")}<>""),IF(ISNUMBER(${number}),${number},1),1),NA())`;
  sheet.chartData(`AC${first}`, pick(seconds), charted, [time]);
  for (const [letters, from] of [["AD", "O12"], ["AE", "P12"], ["AF", "Q12"]] as const) sheet.chartData(`${letters}${first}`, `IF(ISNUMBER(${number}),IF(ISNUMBER(${from}),${from},NA()),NA())`, charted, [time]);
  sheet.chartData(`AG${first}`, `IF(ISERROR(${inner("AH")}),NA(),IF(${inner("AH")}="",NA(),${inner("AC")}))`, charted, [time]);
  sheet.chartData(`AH${first}`, pick(signals), charted, [undefined]);
  sheet.chart({
    title: "Control chart of shot time",
    from: "O44",
    to: "X61",
    xTitle: "AB5",
    yTitle: "AC5",
    words: "O43",
    series: [
      { name: "Centre", look: "line", x: number, y: inner("AD") },
      { name: "Low limit", look: "dashed", x: number, y: inner("AE") },
      { name: "High limit", look: "dashed", x: number, y: inner("AF") },
      { name: "Shot time", look: "marked line", x: number, y: inner("AC") },
      { name: "Signal of a change", look: "alarm", x: number, y: inner("AG") },
    ],
  });
  sheet.lines("O63", "footnote", 120, [
    `Methods: individuals chart with limits from the moving range and Nelson’s rules 1 to 3; Pp and Ppk from the standard deviation of all shots; verdict by von Neumann’s ratio, one test of odd shots and the interval of Pp. ${spelled("SOURCE")}("LOG.LIMITS"), …("LOG.CAPABILITY"), …("LOG.VERDICT").`,
    "A finding is something to ask about, not a fault. Wanted times are the client’s own; what stands there at first is common practice of the trade.",
  ]);

  return sheet.described({
    name: "Log audit",
    purpose: "Paste a client’s shot log as it was kept; get what looks wrong, how steady it is, and one page to hand over.",
    widths: [9, 9, 10, 12, 10, 11, 2, 9, 12, 9, 11, 9, 44, 2, 12, 18, 13, 14, 14, 13, 18, 17, 20, 19, 2, 2, 2, 20, 16, 9, 11, 11, 9, 9],
    frozenRows: 5,
    print: { area: "O1:X64", onePage: true },
  });
}

/** A log as people keep them: units in the cells, a colon for seconds, a comma for a point, a swap, a gap and a slip. */
const timesTyped = ["0:27", "26 s", 28.5, "0:25", 27, 29, "28,0", 26.5, 27.5, "0:28", 27, 25.5, 28, 27, 26, 29.5, 27, 28, 33, 33.5, 34, 32.5, 27, 26, 28, 27.5, 26.5, 28, 27, 25];
const dosesTyped = ["18 g", 18.1, "18,0", 18, 17.9, 18, 36.1, 18, 18.2, 18, 18, 18.1, 18, 17.8, 18, 18, 18, 18.1, 18, 18, 18, 17.9, 18, 18, 18, 18, 18, 18, 18.1, 18];
const cupsTyped = ["36 g", 36.4, "35,8", 36, 36.2, 35, 18.0, 36.5, 37, 36, 35.5, 36, "", 36.2, 36, 35, 36.4, 36, 34, 33.8, 34.1, 34, 36, 36.6, 36, 35.9, 36, 36.2, 36, 36.4];
const strengthsTyped = ["9,4 %", 9.3, 9.5, 9.2, 9.4, 9.7, 9.5, 9.3, 9.2, 9.4, 9.6, 9.3, 9.4, 9.4, "9.3", 9.8, 9.4, 9.4, 10.2, 10.3, 10.1, 10.2, 0.094, 9.2, 9.4, 9.4, 9.3, 9.4, 9.3, 9.1];

const example: Figures = {
  columns: {
    "": {
      Shot: timesTyped.map((_, index) => index + 1),
      Setting: timesTyped.map((_, index) => (index >= 18 && index < 22 ? 2.1 : 2.2)),
      Dose: dosesTyped,
      Beverage: cupsTyped,
      Time: timesTyped,
      Strength: strengthsTyped,
    },
  },
  cells: { client: "An invented café", auditor: "An auditor, 2 March" },
};

export const logAudit: ReadySheet = { describe, example };
