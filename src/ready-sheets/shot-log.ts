/** Shot log: what was weighed, timed and read, each coffee against its own target, and whether to touch the grinder now. */
import { call, quoted, say } from "./formulas";
import type { Figures, ReadySheet } from "./ready-sheet";
import type { SheetBuilder } from "./sheet-builder";
import type { SheetDescription } from "./sheet-description";
import { typeHere, worksOut } from "./words";

const first = 8;
/** Shots that the chart shows. */
const charted = 30;

function describe(sheet: SheetBuilder): SheetDescription {
  const time = sheet.format("time");
  const percent = sheet.format("percent");
  const columns = (suffix: string, ...headings: readonly string[]) => headings.map((heading) => sheet.column(heading, suffix));
  const shot = columns("", "Dose", "Beverage", "Time", "Strength");
  const [dose, beverage, took, strength] = shot as [string, string, string, string];
  const [day, coffee, setting] = columns("", "Day", "Coffee", "Setting") as [string, string, string];
  const targets = columns("Targets", "Coffee", "Dose", "Beverage", "Time");
  const tolerance = sheet.named("time_tolerance");
  const aims = [...targets, sheet.named("dose_tolerance"), sheet.named("beverage_tolerance"), tolerance];
  sheet.columns([9, 12, 8, 8, 10, 8, 10, 11, 1, 7, 11, 8, 1, 14, 8, 10, 8, 1, 44]);

  sheet.put("A1", "title", "Shot log");
  const [, advice] = sheet.workingColumn(["Rule", "Sentence", "Setting", "Low", "High"], call("SHOT.ADVICE", day, coffee, setting, ...shot, ...aims), 1);
  sheet.across("A2", "L", "decision", `${advice}&""`);
  sheet.put("A3", "note", "By the last shot. Day and coffee: type them once; a blank takes the one above.");

  sheet.put("A5", "group", typeHere);
  sheet.unitRow("C6", [{ words: "grinder" }, "mass", "mass", "time", "percent"]);
  sheet.table("", "A7", 40, [
    ["Day", "days"], ["Coffee", "coffees"], ["Setting", "anySetting"], ["Dose", "dose"], ["Beverage", "beverage"], ["Time", "time"], ["Strength", "strength"], ["Note", "text"],
  ]);

  sheet.put("J5", "group", worksOut);
  sheet.unitRow("J6", [{ words: "to 1" }, "percent", { words: "% points" }]);
  sheet.row("J7", "heading", ["Ratio", "Extraction", "±"]);
  sheet.spill(`J${first}`, call("RATIO", dose, beverage), sheet.besideRows, ["0.00"]);
  sheet.spill(`K${first}`, `IF(${strength}="","",${call("EXTRACTION", dose, beverage, strength)})`, sheet.besideRows, [percent]);
  sheet.spill(`L${first}`, `IF(${strength}="","",${call("EXTRACTION.UNCERTAINTY", dose, beverage, strength)})`, sheet.besideRows, [percent]);

  sheet.unitRow("O2", ["mass", "mass", "time"]);
  sheet.put("N3", "label", "Give or take");
  const tolerances = [["O3", "dose", "mass", 0.3], ["P3", "beverage", "mass", 2], ["Q3", "time", "time", 3]] as const;
  for (const [at, name, measure, value] of tolerances) sheet.difference(at, `${name}_tolerance`, measure, value);
  sheet.put("N5", "group", `${typeHere}: targets`);
  sheet.unitRow("O6", ["mass", "mass", "time"]);
  sheet.table("Targets", "N7", 8, [
    ["Coffee", "targetCoffees"], ["Dose", "doseTargets", { values: [18] }], ["Beverage", "beverageTargets", { values: [36] }], ["Time", "timeTargets", { values: [27] }],
  ]);

  const check = call("SHOT.CHECK", ...shot, coffee, ...aims);
  sheet.put("S7", "text heading", "What to look at");
  sheet.findings(`S${first}`, `INDEX(${check},0,2)`, sheet.besideRows);

  const timed = `COUNT(${took})`;
  const shown = `MIN(${charted},${timed})`;
  const [number] = sheet.workingColumn(["Shot"], `IF(SEQUENCE(${charted})<=${timed},MAX(0,${timed}-${charted})+SEQUENCE(${charted}),NA())`, charted) as [string];
  const ofShot = (list: string) => `INDEX(FILTER(${list},ISNUMBER(${took})),IF(ISNUMBER(${number}),${number},1),1)`;
  const drawn = (formula: string) => `IF(ISNUMBER(${number}),IF(ISNUMBER(${formula}),${formula},NA()),NA())`;
  const [times] = sheet.workingColumn(["Shot time"], drawn(ofShot(took)), charted, [time]) as [string];
  const [wanted] = sheet.workingColumn(["Target"], drawn(ofShot(`INDEX(${check},0,1)`)), charted, [time]) as [string];
  const [low] = sheet.workingColumn(["Low"], `${wanted}-${tolerance}`, charted, [time]) as [string];
  const [high] = sheet.workingColumn(["High"], `${wanted}+${tolerance}`, charted, [time]) as [string];
  const xTitle = sheet.working("Shots axis", quoted("Shot"));
  const yTitle = sheet.working("Times axis", say`Shot time, ${"F6"}`);
  const onTarget = `SUM(IF(ISNUMBER(${wanted}),IF(ROUND(ABS(${times}-${wanted}),9)<=ROUND(${tolerance},9),1,0),0))`;
  sheet.sentence("N17", "note", `IF(${timed}=0,"No shot times yet.",${say`${onTarget} of the last ${shown} on target`})`);
  sheet.chart({
    title: "The last shot times, each against its coffee’s target",
    from: "N18",
    to: "R36",
    xTitle,
    yTitle,
    words: "N17",
    series: [
      { name: "Target", look: "line", x: number, y: wanted },
      { name: "Low", look: "dashed", x: number, y: low },
      { name: "High", look: "dashed", x: number, y: high },
      { name: "Shot time", look: "marked line", x: number, y: times },
    ],
  });
  sheet.lines("N38", "footnote", 100, [
    `Method: line of log time on setting within days, the level from all of today’s shots (${call("SOURCE", quoted("GRIND.ADVICE"))}). ± is 19 in 20 for a common scale and refractometer (…("EXTRACTION.UNCERTAINTY")).`,
    `Targets are your own; what stands there at first is common practice of the trade. What looks wrong: ${call("SOURCE", quoted("LOG.CHECK"))}.`,
    "Change one thing at a time: the same dose, basket, beverage mass, pressure and coffee.",
  ]);

  return sheet.described({
    name: "Shot log",
    purpose: "Log every shot of every coffee against its own target, see what looks wrong, and read whether to touch the grinder now.",
    frozenRows: 7,
    print: { area: "A1:S47", landscape: true, repeated: "5:7" },
  });
}

/** Four mornings of two invented coffees: the second runs slower than the first, and so does the last. */
const shots = [
  ["Mon", "House", 2.3, 18.0, 35.8, 24.5, 9.2], ["", "", 2.1, 18.1, 36.2, 29.5, 9.8], ["", "", 2.2, 18.0, 36.0, 27.0, 9.5], ["", "", 2.2, 17.9, 36.4, 26.5, 9.4],
  ["", "Guest", 1.8, 19.0, 45.2, 29.0, 8.1], ["", "", 1.8, 19.0, 44.6, 30.5, 8.3],
  ["Tue", "House", 2.2, 18.0, 36.1, 31.5, 9.9], ["", "", 2.4, 18.0, 35.9, 27.0, 9.5], ["", "", 2.4, 18.2, 36.0, 27.5, 9.5], ["", "", 2.4, 18.0, 36.3, 26.5, 9.4],
  ["", "Guest", 1.8, 19.1, 45.0, 31.0, 8.3], ["", "", 1.9, 19.0, 45.4, 29.5, 8.1],
  ["Wed", "House", 2.4, 18.0, 36.0, 25.5, 9.3], ["", "", 2.35, 18.0, 36.2, 26.5, 9.4], ["", "", 2.35, 18.6, 35.9, 28.5, 9.2], ["", "", 2.35, 18.0, 35.8, 27.0, 9.5],
  ["", "Guest", 1.9, 19.0, 45.0, 28.5, 8.1], ["", "", 1.9, 19.0, 44.8, 27.0, 8.0],
  ["Thu", "House", 2.35, 18.0, 36.0, 31.0, 9.8], ["", "", 2.35, 18.1, 36.1, 31.5, 9.8],
] as const;

const typed = (index: number) => shots.map((shot) => (shot[index] === "" ? undefined : shot[index]));

const example: Figures = {
  columns: {
    "": { Day: typed(0), Coffee: typed(1), Setting: typed(2), Dose: typed(3), Beverage: typed(4), Time: typed(5), Strength: typed(6) },
    Targets: { Coffee: ["House", "Guest"], Dose: [18, 19], Beverage: [36, 45], Time: [27, 30] },
  },
};

export const shotLog: ReadySheet = { describe, example };
