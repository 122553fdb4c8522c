/** The report of a log audit: a page to hand over. It comes along with the audit and reads its log. */
import { auditedLog } from "./audited-log";
import { call, drawn, given, quoted, say } from "./formulas";
import type { Figures, ReadySheet } from "./ready-sheet";
import type { SheetBuilder } from "./sheet-builder";
import type { SheetDescription } from "./sheet-description";
import { typeHere, worksOut } from "./words";

const findings = 15;
const mostSettings = 10;
const charted = 100;

function describe(sheet: SheetBuilder): SheetDescription {
  const log = auditedLog(sheet);
  const [time, percent] = [sheet.format("time"), sheet.format("percent")];
  sheet.columns([8, 12, 13, 13, 13, 13, 13, 13, 13]);
  const last = "I";
  sheet.put("A1", "title", "Log audit: report");
  sheet.across("A2", last, "decision", `${log.named("steady")}&""`);
  ["level", "next", "counts"].forEach((name, index) => sheet.across(`A${3 + index}`, last, "reason", `${log.named(name)}&""`));
  sheet.put("A6", "group", typeHere);
  sheet.put("A7", "label", "For");
  sheet.textInput("B7", "client", "", undefined, "E");
  sheet.put("A8", "label", "By, on");
  sheet.textInput("B8", "auditor", "", undefined, "E");

  // The log again: what is read of another sheet's cells would have to name that sheet, and a person may rename it.
  const long = (columns: readonly string[]) => columns.map((reference) => log.asLong(reference.split(":")[0]!));
  const [setting] = long(sheet.workingColumn(["Setting"], `IF(${log.isShot},IF(${log.column("Setting")}="","not given",${log.column("Setting")}),"")`, 1));
  const read = long(sheet.workingColumn(["Dose", "Beverage", "Time", "Strength", "Left out because"], log.read, 1));
  const values = log.values(read);

  sheet.put("A10", "group", "What to look at, the worst first");
  sheet.row("A11", "heading", ["Row"]);
  sheet.row("B11", "text heading", ["How bad", "What looks wrong", "", "", "", "", "", ""]);
  const found = sheet.workingColumn(["Row", "Grade", "In words"], `IF(${log.shots}=0,"",${call("LOG.FINDINGS", ...log.typed, String(findings))})`, findings + 1);
  for (let line = 1; line <= findings; line++) {
    const at = 11 + line;
    const part = (column: number) => `IFERROR(INDEX(${found[column]},${line + 1},1)&"","")`;
    sheet.cell(`A${at}`, { role: "result", formula: `IFERROR(INDEX(${found[0]},${line + 1},1),"")`, format: "0" });
    sheet.cell(`B${at}`, { role: "result", formula: part(1) });
    sheet.across(`C${at}`, last, "entry", part(2));
  }
  const under = 12 + findings;
  sheet.sentence(`A${under}`, "note", `IF(COUNT(${found[0]})<${findings},"","More rows have something to look at: the list beside the log has all that are left out.")`);

  const top = under + 2;
  sheet.put(`A${top}`, "group", `${worksOut}: by setting, without the rows left out`);
  const summary = sheet.workingColumn(
    ["Setting", "Shots", "Ratio", "Ratio ±", "Time", "Time ±", "Strength", "Strength ±", "Extraction", "Extraction ±"],
    `IF(${log.shots}=0,"",${call("LOG.SUMMARY", given(setting!), ...read.slice(0, 4).map(log.numbers))})`, mostSettings + 2,
  );
  sheet.unitRow(`B${top + 1}`, [{ words: "shots" }, { words: "to 1" }, "time", "time", "percent", "percent", "percent", "percent"]);
  sheet.row(`A${top + 2}`, "heading", ["Setting", "Shots", "Ratio", "Time", "Time ±", "Strength", "Strength ±", "Extraction", "Extraction ±"]);
  const shown = [0, 1, 2, 4, 5, 6, 7, 8, 9];
  const formats = [undefined, "0", "0.00", time, time, percent, percent, percent, percent];
  // Without the headings of the function.
  const body = (reference: string) => reference.replace(/\$8:/, "$9:").replace(/\d+$/, String(8 + mostSettings));
  shown.forEach((column, index) => sheet.spill(`${"ABCDEFGHI"[index]!}${top + 3}`, given(body(summary[column]!)), mostSettings, [formats[index]]));
  sheet.sentence(`A${top + 3 + mostSettings}`, "note", `IF(COUNTA(INDEX(${summary[0]},${mostSettings + 2},1))=0,"± holds two shots in three.","Only the first ${mostSettings} settings are shown; ± holds two shots in three.")`);

  const chart = top + 5 + mostSettings;
  const limits = sheet.workingColumn(["Centre", "Own low", "Own high", "Shot to shot"], `IF(COUNT(${values})<3,"",${call("LOG.LIMITS", values)})`, 1);
  const counted = `COUNT(${values})`;
  const [number] = sheet.workingColumn(["Row"], `IF(SEQUENCE(${charted})<=MIN(${charted},${counted}),INDEX(FILTER(SEQUENCE(ROWS(${values})),ISNUMBER(${values})),MAX(0,${counted}-${charted})+SEQUENCE(${charted}),1),NA())`, charted, ["0"]);
  const [value] = sheet.workingColumn(["Value"], `IF(ISNUMBER(${number}),INDEX(${values},IF(ISNUMBER(${number}),${number},1),1),NA())`, charted);
  const line = (name: string, of: string) => sheet.workingColumn([name], `IF(ISNUMBER(${number}),${of},NA())`, charted)[0]!;
  const [wantedLow, wantedHigh] = [line("Wanted from", log.low), line("Wanted to", log.high)];
  const [ownLow, ownHigh] = [line("Own low", drawn(limits[1]!)), line("Own high", drawn(limits[2]!))];
  const xTitle = sheet.working("Rows axis", quoted("Row of the log"));
  const yTitle = sheet.working("Value axis", say`${log.what}, ${log.unit}`);
  const inside = `SUM(IF(ISNUMBER(${value}),IF((${value}>=${log.low})*(${value}<=${log.high}),1,0),0))`;
  sheet.sentence(`A${chart}`, "note", `IF(COUNT(${value})=0,"The chart fills as the log is pasted.",${say`${log.what}: ${inside} of the last ${`COUNT(${value})`} inside what is wanted (lines); dashed, what the log keeps by itself.`})`);
  sheet.chart({
    title: "Shot by shot", from: `A${chart + 1}`, to: `${last}${chart + 16}`, xTitle, yTitle, words: `A${chart}`,
    series: [
      { name: "Wanted from", look: "line", x: number!, y: wantedLow }, { name: "Wanted to", look: "line", x: number!, y: wantedHigh },
      { name: "Own low", look: "dashed", x: number!, y: ownLow }, { name: "Own high", look: "dashed", x: number!, y: ownHigh },
      { name: "Shot", look: "marked line", x: number!, y: value! },
    ],
  });
  sheet.lines(`A${chart + 18}`, "footnote", 130, [
    `Method: neighbouring shots (von Neumann), one test of odd shots, intervals of the mean and of Pp; ± is a standard deviation; dashed lines: mean ± 3 moving ranges ÷ 1.128. ${call("SOURCE", quoted("LOG.VERDICT"))}, …("LOG.FINDINGS"), …("LOG.LIMITS").`,
    "A finding is something to ask about, not a fault. What is wanted is the client’s own.",
  ]);
  return sheet.described({
    name: "Audit report",
    purpose: "Hand over what a log audit found: the answer, what to look at, the settings side by side, and a chart.",
    frozenRows: 5,
    print: { area: `A1:${last}${chart + 21}`, onePage: true },
  });
}

const example: Figures = { cells: { client: "An invented café", auditor: "An auditor, 2 March" } };

export const auditReport: ReadySheet = { describe, example };
