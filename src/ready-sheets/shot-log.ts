/** Shot log: what was weighed, timed and read, what follows from it, and the last shots against the target. */
import { spelled } from "../sheet/spelling";
import { firstOf, quoted, say } from "./formulas";
import type { Figures, ReadySheet } from "./ready-sheet";
import type { SheetBuilder } from "./sheet-builder";
import type { SheetDescription } from "./sheet-description";
import { typeHere, worksOut } from "./words";

const first = 6;
const charted = 30;

function describe(sheet: SheetBuilder): SheetDescription {
  const { prefix } = sheet;
  const time = sheet.format("time");
  const percent = sheet.format("percent");
  const mass = sheet.format("mass");
  const column = (heading: string) => `${prefix}[${heading}]`;
  const all = ["Dose", "Beverage", "Strength", "Time"].map(column).join(",");
  const wanted = (name: string) => `${prefix}_${name}`;

  sheet.put("A1", "title", "Shot log");
  sheet.put("A3", "group", typeHere);
  sheet.unitRow("A4", [undefined, undefined, "mass", "mass", "time", "percent"]);
  sheet.table("", "A5", 40, [["Shot", "anySetting"], ["Setting", "anySetting"], ["Dose", "dose"], ["Beverage", "beverage"], ["Time", "time"], ["Strength", "strength"]]);

  sheet.put("H3", "group", worksOut);
  sheet.unitRow("H4", [{ words: "to 1" }, "percent", "mass", { words: "g/s" }, { words: "% points" }]);
  sheet.row("H5", "heading", ["Ratio", "Extraction", "Solids", "Flow", "± extraction"]);
  sheet.put("M5", "text heading", "What to look at");
  sheet.spill(`H${first}`, `${spelled("SHOT")}(${all})`, sheet.besideRows, ["0.00", percent, sheet.finerFormat("mass"), "0.00"]);
  const uncertainty = `${spelled("EXTRACTION.UNCERTAINTY")}(${["Dose", "Beverage", "Strength"].map(column).join(",")})`;
  sheet.spill(`L${first}`, `IF(${column("Strength")}="","",${uncertainty})`, sheet.besideRows, [percent]);
  sheet.spill(`M${first}`, `${spelled("LOG.CHECK")}(${["Dose", "Beverage", "Time", "Strength"].map(column).join(",")})`, sheet.besideRows, [undefined]);

  sheet.put("O3", "group", `${typeHere}: the target`);
  sheet.row("O5", "heading", ["", "Target", "Give or take", "Unit"]);
  const targets = [["Dose", "dose", 18, 0.3, "mass"], ["Beverage", "beverage", 36, 2, "mass"], ["Time", "time", 27, 3, "time"]] as const;
  targets.forEach(([label, name, value, tolerance, measure], index) => {
    const row = first + index;
    sheet.put(`O${row}`, "label", label);
    sheet.input(`P${row}`, name, name, value, { unitBeside: false });
    sheet.difference(`Q${row}`, `${name}_tolerance`, measure, tolerance);
    sheet.unit(`R${row}`, measure);
  });

  const shots = `COUNT(${column("Dose")})`;
  const last = (of: string) => `IF(${shots}=0,"",INDEX(FILTER(IF(${of}="","",${of}),ISNUMBER(${column("Dose")})),${shots}+1-SEQUENCE(MIN(5,${shots})),1))`;
  sheet.put("O10", "group", "The last shots, newest first");
  sheet.unitRow("P11", ["mass", "mass", "time"]);
  sheet.row("O12", "heading", ["Shot", "Dose", "Beverage", "Time"]);
  sheet.put("S12", "text heading", "Against the target");
  sheet.spill("O13", last(column("Shot")), 5, [undefined]);
  sheet.spill("P13", last(column("Dose")), 5, [mass]);
  sheet.spill("Q13", last(column("Beverage")), 5, [mass]);
  sheet.spill("R13", last(column("Time")), 5, [time]);
  const against = (cells: string, name: string, much: string, little: string) =>
    `IF(ISNUMBER(${cells}),IF(ROUND(ABS(${cells}-${wanted(name)}),9)>ROUND(${wanted(`${name}_tolerance`)},9),IF(${cells}>${wanted(name)},"${much} · ","${little} · "),""),"")`;
  const found = [against("P13:P17", "dose", "▲ dose heavy", "▼ dose light"), against("Q13:Q17", "beverage", "▲ cup heavy", "▼ cup light"), against("R13:R17", "time", "▲ time long", "▼ time short")].join("&");
  sheet.spill("S13", `IF(ISNUMBER(P13:P17),IF(${found}="","✓ on target",LEFT(${found},LEN(${found})-3)),"")`, 5, [undefined]);

  const [dose, beverage, took] = ["P13", "Q13", "R13"].map((cell) => `INDEX(${cell}:${cell.replace("13", "17")},1,1)`) as [string, string, string];
  const isOff = (cell: string, name: string) =>
    `IF(ISNUMBER(${cell}),ROUND(ABS(${cell}-${wanted(name)}),9)>ROUND(${wanted(`${name}_tolerance`)},9),FALSE)`;
  const off = (name: string) => sheet.said(`ABS(${took}-${wanted(name)})`, "time");
  sheet.across("A2", "S", "decision",
    firstOf([
      [`${shots}=0`, quoted("Type the first shot: dose, beverage and time. Strength may stay blank.")],
      [`OR(${isOff(dose, "dose")},${isOff(beverage, "beverage")})`, say`The last shot was weighed off the target (${"INDEX(S13:S17,1,1)"}): mend that before the grind.`],
      [isOff(took, "time"), say`The last shot took ${sheet.said(took, "time")}: ${off("time")} ${`IF(${took}>${wanted("time")},"slow","fast")`}.`],
      [`NOT(ISNUMBER(${took}))`, quoted("The last shot has no time yet.")],
    ], say`The last shot is on target: ${sheet.said(took, "time")}.`),
  );

  const timed = `COUNT(${column("Time")})`;
  const shown = `MIN(${charted},${timed})`;
  const lastRow = first + charted - 1;
  const numbers = `AA${first}:AA${lastRow}`;
  sheet.sentence(
    "O19",
    "note",
    `IF(${timed}=0,"No shot times yet: type the first shot into the table.","In words: of the last "&${shown}&IF(${shown}=1," shot"," shots")&", "&SUM(IF(ISNUMBER(AB${first}:AB${lastRow}),IF(ROUND(ABS(AB${first}:AB${lastRow}-${wanted("time")}),9)<=ROUND(${wanted("time_tolerance")},9),1,0),0))&IF(${shown}=1," lies"," lie")&" within "&${sheet.said(wanted("time_tolerance"), "time")}&" of the target time, "&${sheet.said(wanted("time"), "time")}&".")`,
  );
  sheet.lines("O41", "footnote", 105, [
    `Method: extraction = beverage × strength ÷ dose. ± covers 19 in 20 for a common scale and refractometer; ${spelled("SOURCE")}("EXTRACTION.UNCERTAINTY") says which.`,
    `Target and give-or-take are your own; what stands there at first is common practice of the trade. Checks: ${spelled("SOURCE")}("LOG.CHECK").`,
  ]);

  sheet.put("AA3", "group", "For the chart");
  sheet.put("AA5", "heading", "Shot");
  sheet.cell("AB5", { role: "heading", formula: `"Shot time, "&E4` });
  sheet.row("AC5", "heading", ["Target", "Low", "High"]);
  sheet.chartData(`AA${first}`, `IF(SEQUENCE(${charted})<=${timed},MAX(0,${timed}-${charted})+SEQUENCE(${charted}),NA())`, charted, [undefined]);
  sheet.chartData(`AB${first}`, `IF(ISNUMBER(${numbers}),INDEX(FILTER(${column("Time")},ISNUMBER(${column("Time")})),IF(ISNUMBER(${numbers}),${numbers},1),1),NA())`, charted, [time]);
  sheet.chartData(`AC${first}`, `IF(ISNUMBER(${numbers}),${wanted("time")},NA())`, charted, [time]);
  sheet.chartData(`AD${first}`, `IF(ISNUMBER(${numbers}),${wanted("time")}-${wanted("time_tolerance")},NA())`, charted, [time]);
  sheet.chartData(`AE${first}`, `IF(ISNUMBER(${numbers}),${wanted("time")}+${wanted("time_tolerance")},NA())`, charted, [time]);
  const x = `AA${first}:AA${lastRow}`;
  const y = (letters: string) => `${letters}${first}:${letters}${lastRow}`;
  sheet.chart({
    title: "Shot times against the target",
    from: "O20",
    to: "T39",
    xTitle: "AA5",
    yTitle: "AB5",
    words: "O19",
    series: [
      { name: "Target", look: "line", x, y: y("AC") },
      { name: "Low", look: "dashed", x, y: y("AD") },
      { name: "High", look: "dashed", x, y: y("AE") },
      { name: "Shot time", look: "marked line", x, y: y("AB") },
    ],
  });

  return sheet.described({
    name: "Shot log",
    purpose: "Log every shot and see its ratio, extraction and flow, what looks wrong, and how the last shots stand against your target.",
    widths: [9, 9, 9, 11, 9, 11, 2, 9, 12, 9, 9, 14, 36, 2, 12, 11, 14, 11, 32, 4, 2, 2, 2, 2, 2, 2, 9, 16, 9, 9, 9],
    frozenRows: 5,
    print: { area: "A1:T42", landscape: true, repeated: "3:5" },
  });
}

const times = [27.5, 26, 29.5, 28, 25.5, 31.5, 27, 26.5, 28.5, 24.5, 27, 33, 28, 26.5, 25, 29, 27.5, 26, 30.5, 27, 28.5, 22.5, 27.5, 26];
const strengths = [9.4, 9.2, 9.7, 9.5, 9.1, 9.9, 9.4, 9.3, 9.6, 9.0, 9.4, 10.1, 9.5, 9.2, 9.1, 9.6, 9.4, 9.3, 9.8, 9.4, 9.5, 8.7, 9.4, 9.2];

const example: Figures = {
  columns: {
    "": {
      Shot: times.map((_, index) => index + 1),
      Setting: times.map((_, index) => (index < 12 ? 2.3 : 2.2)),
      Dose: times.map((_, index) => 18 + (((index * 7) % 5) - 2) / 10),
      Beverage: times.map((_, index) => 36 + (((index * 11) % 9) - 4) / 4),
      Time: times,
      Strength: strengths,
    },
  },
};

export const shotLog: ReadySheet = { describe, example };
