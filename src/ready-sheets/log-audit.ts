/** Log audit: a client's log as it was kept, what is left of it as numbers, and how steady it is. Its report is a sheet of its own. */
import { auditedLog, judged, mostRows } from "./audited-log";
import { call, firstOf, given, quoted, say } from "./formulas";
import type { Figures, ReadySheet } from "./ready-sheet";
import type { SheetBuilder } from "./sheet-builder";
import type { SheetDescription } from "./sheet-description";
import { typeHere } from "./words";

/** The first row of the log. */
const first = 9;
const rows = 60;

function describe(sheet: SheetBuilder): SheetDescription {
  const log = auditedLog(sheet);
  const [mass, time, percent] = (["mass", "time", "percent"] as const).map((measure) => sheet.format(measure)) as [string, string, string];
  sheet.columns([6, 8, 8, 7, 9, 7, 9, 7, 1, 10, 6, 6, 5, 1, 5, 8, 7, 9, 7, 9, 32]);
  sheet.put("A1", "title", "Log audit");

  const beside = (letter: string) => log.asLong(`${letter}${first}`);
  const [row, setting, dose, beverage, seconds, strength, why] = ["O", "P", "Q", "R", "S", "T", "U"].map(beside) as [string, string, string, string, string, string, string];
  const leftOut = `SUM(IF(${why}="",0,1))`;
  const [steady, centred, tight, next] = sheet.workingColumn(
    ["Steady", "Centred", "Tight", "Next"],
    call("LOG.VERDICT", log.values([dose, beverage, seconds, strength]), log.low, log.high, log.unitIn("M", first), given(setting), given(row), leftOut), 1,
  );
  const empty = `${log.shots}=0`;
  const wanted = `NOT(${log.low}<${log.high})`;
  const whileAny = (formula: string) => `IF(${empty},"",IF(${wanted},"",${formula}))`;
  const beyond = say` Only the first ${`FIXED(${mostRows},0)`} rows are judged: a longer log is one for npm run check-log.`;
  sheet.across("A2", "U", "decision", firstOf([
    [empty, quoted("Paste the log: dose, beverage and time of each shot, as they were kept.")],
    [wanted, quoted("What is wanted is from a lower number to a higher one.")],
  ], say`${log.what}. ${steady!}`), "steady");
  sheet.across("A3", "U", "reason", firstOf([
    [empty, quoted("Or start this sheet while your log is in sight: its rows come along. Units, commas and “0:27” in the cells are read.")],
  ], whileAny(say`Centred: ${centred!} Tight: ${tight!}`)), "level");
  sheet.across("A4", "U", "reason", whileAny(say`Next: ${next!}`), "next");
  sheet.across("A5", "U", "reason", `IF(${empty},"",${say`${log.shots} ${`IF(${log.shots}=1,"row","rows")`}, ${leftOut} left out for what looks wrong in ${`IF(${leftOut}=1,"it","them")`}.`}&IF(ROWS(${log.typed[0]})>${mostRows},${beyond},""))`, "counts");

  sheet.put("A6", "group", `${typeHere}: the log, as long as it is`);
  sheet.unitRow("D7", ["mass", "mass", "time", "percent"]);
  const unchecked = { unchecked: true } as const;
  sheet.table("", "A8", rows, [
    ["Day", "text"], ["Coffee", "text"], ["Setting", "anySetting"],
    ["Dose", "dose", unchecked], ["Beverage", "beverage", unchecked], ["Time", "time", unchecked], ["Strength", "strength", unchecked], ["Note", "text"],
  ]);

  sheet.put("J6", "group", `${typeHere}: wanted`);
  sheet.row("J8", "heading", ["", "From", "To", "Unit"]);
  judged.forEach(({ what, name, kind, measure, low, high }, index) => {
    const line = first + index;
    sheet.put(`J${line}`, "label", what);
    sheet.input(`K${line}`, `${name}_low`, kind, low, { unitBeside: false });
    sheet.input(`L${line}`, `${name}_high`, kind, high, { unitBeside: false });
    sheet.unit(`M${line}`, measure);
  });
  sheet.put("J14", "label", "Judge the");
  sheet.textInput("J15", "judge", judged[0].what, judged.map(({ what }) => what));

  sheet.put("O6", "group", "→ As read");
  sheet.unitRow("Q7", ["mass", "mass", "time", "percent"]);
  sheet.row("O8", "heading", ["Row", "Setting", "Dose", "Beverage", "Time", "Strength"]);
  sheet.put("U8", "text heading", "Left out because");
  sheet.spill(`O${first}`, `IF(${log.isShot},SEQUENCE(ROWS(${log.typed[0]})),"")`, sheet.besideRows, ["0"]);
  sheet.spill(`P${first}`, given(log.column("Setting")), sheet.besideRows, [undefined]);
  sheet.spill(`Q${first}`, log.read, sheet.besideRows, [mass, mass, time, percent, undefined]);

  sheet.lines("J17", "footnote", 32, [
    `Method: neighbouring shots (von Neumann), one test of odd shots, the interval of Pp. ${call("SOURCE", quoted("LOG.VERDICT"))} has the sources.`,
    "A finding is something to ask about, not a fault. What is wanted is the client’s own; what stands there at first is common practice of the trade.",
    "The page to hand over is the sheet beside this one.",
  ]);
  return sheet.described({
    name: "Log audit",
    purpose: "Paste a client’s shot log as it was kept; get what looks wrong, how steady it is, and one page to hand over.",
    frozenRows: 8,
    print: { area: "A1:U68", landscape: true, repeated: "1:8" },
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
      Setting: timesTyped.map((_, index) => (index >= 18 && index < 22 ? 2.1 : 2.2)),
      Dose: dosesTyped,
      Beverage: cupsTyped,
      Time: timesTyped,
      Strength: strengthsTyped,
    },
  },
};

export const logAudit: ReadySheet = { describe, example, companion: "AuditReport", takesLog: true };
