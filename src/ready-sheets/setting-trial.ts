/** Setting trial: which of a few settings does better, in a run order that is fair, with cups that do not tell. */
import { spelled } from "../sheet/spelling";
import type { Figures, ReadySheet } from "./ready-sheet";
import type { SheetBuilder } from "./sheet-builder";
import type { SheetDescription } from "./sheet-description";
import { chance } from "./formulas";
import { typeHere, worksOut } from "./words";

const first = 6;
const shots = 30;
const mostSettings = 8;
/** Rows that the charts look at; more than anyone pulls in a trial. */
const charted = 120;

function describe(sheet: SheetBuilder): SheetDescription {
  const { prefix } = sheet;
  const percent = sheet.format("percent");
  const plan = `${prefix}Plan[Setting]`;
  const column = (heading: string) => `${prefix}[${heading}]`;
  const extraction = `${spelled("EXTRACTION")}(${column("Dose")},${column("Beverage")},${column("Strength")})`;
  const settings = column("Setting");
  const repeats = `${prefix}_repeats`;
  const seed = `${prefix}_seed`;
  const has = (count: number, otherwise: string, then: string) => `IF(COUNT(${column("Strength")})<${count},${otherwise},${then})`;

  sheet.put("A1", "title", "Setting trial");
  sheet.put("A2", "note", "Plan the runs, pull them in the order given, serve the cups by their code, and type the results beside the setting used.");

  sheet.put("A3", "group", `${typeHere}: the plan`);
  sheet.unit("A4", { words: "to try" });
  sheet.table("Plan", "A5", mostSettings, [["Setting", "anySetting", { format: "0.00" }]]);
  sheet.put("A15", "label", "Shots of each");
  sheet.input("A16", "repeats", "repeats", 3, { unitBeside: false });
  sheet.put("A17", "label", "Order number");
  sheet.input("A18", "seed", "seed", 1, { unitBeside: false });
  sheet.put("A19", "note", "Another gives another order.");

  sheet.put("C3", "group", "→ Order and codes");
  const count = `COUNTA(${plan})`;
  sheet.spill("C5", `IF(${count}=0,"",${spelled("RUN.ORDER")}(FILTER(${plan},${plan}<>""),${repeats},${seed}))`, shots + 1, ["0", "0.00"], true);
  sheet.put("E5", "heading", "Cup code");
  sheet.spill("E6", `IF(${count}=0,"",${spelled("TASTE.CODES")}(${count}*${repeats},${seed}))`, shots, ["0"]);

  sheet.put("G3", "group", `${typeHere}: the results`);
  sheet.unitRow("G4", [{ words: "used" }, "mass", "mass", "time", "percent", { words: "0 to 10" }]);
  sheet.table("", "G5", shots, [["Setting", "anySetting", { format: "0.00" }], ["Dose", "dose"], ["Beverage", "beverage"], ["Time", "time"], ["Strength", "strength"], ["Taste", "results", { format: "0.0" }]]);
  sheet.unitRow("N4", ["percent"]);
  sheet.put("N3", "group", "→");
  sheet.put("N5", "heading", "Extraction");
  sheet.spill("N6", extraction, sheet.besideRows, [percent]);

  sheet.put("P3", "group", `${worksOut}: extraction by setting, as pulled`);
  sheet.unitRow("P4", [undefined, { words: "shots" }, "percent", "percent", "percent", "percent"]);
  sheet.put("P14", "note", "Settings that share a letter: no difference between them is shown.");
  sheet.spill("P5", has(2, '""', `${spelled("COMPARE")}(${settings},${extraction})`), mostSettings + 1, ["0.00", "0", percent, percent, percent, percent, undefined], true);
  sheet.put("P15", "group", "Extraction by setting, as if every shot had taken the same time");
  sheet.unitRow("P16", [undefined, { words: "shots" }, "percent", "percent"]);
  sheet.spill("P17", has(4, '""', `${spelled("COMPARE.ADJUSTED")}(${settings},${extraction},${column("Time")})`), mostSettings + 1, ["0.00", "0", percent, percent], true);

  sheet.put("P27", "group", "What it says");
  sheet.row("P28", "heading", ["Question", "", "", "Statistic", "df", "df", "p", "slopes, p"]);
  sheet.put("P29", "label", "Do the settings differ?");
  sheet.spill("S29", has(4, '""', `${spelled("COMPARE.TEST")}(${settings},${extraction})`), 1, ["0.00", "0", "0.0", "0.000"]);
  sheet.put("P30", "label", "And at equal shot time?");
  sheet.spill("S30", has(4, '""', `${spelled("COMPARE.ADJUSTEDTEST")}(${settings},${extraction},${column("Time")})`), 1, ["0.00", "0", "0", "0.000", "0.000"]);
  sheet.row("P32", "heading", ["Peak", "", "", "Setting", "From", "To", "Result", "Unit"]);
  sheet.put("P33", "label", "Extraction");
  sheet.spill("S33", has(4, '""', `${spelled("BEST.SETTING")}(${settings},${extraction})`), 1, ["0.00", "0.00", "0.00", percent]);
  sheet.unit("W33", "percent");
  sheet.put("P34", "label", "Taste");
  sheet.spill("S34", `IF(COUNT(${column("Taste")})<4,"",${spelled("BEST.SETTING")}(${settings},${column("Taste")}))`, 1, ["0.00", "0.00", "0.00", "0.0"]);
  sheet.unit("W34", { words: "of 10" });
  sheet.sentence("P36", "verdict", `IF(ISNUMBER(V29),IF(V29<0.05,"The settings differ in extraction (p "&${chance("V29")}&").","No difference in extraction is shown (p "&${chance("V29")}&"); that does not prove there is none."),"Type at least two shots of each of two settings.")`);
  sheet.sentence("P37", "verdict", `IF(ISNUMBER(V30),IF(V30<0.05,"It stays when shot time is taken out (p "&${chance("V30")}&").","With shot time taken out, no difference is shown (p "&${chance("V30")}&")."),"")`);
  sheet.sentence("P38", "verdict", `IF(ISNUMBER(S33),"Extraction peaks near setting "&FIXED(S33,2,TRUE)&".",IF(COUNT(${column("Strength")})<4,"","Extraction shows no peak between the settings tried."))`);
  sheet.lines("P39", "footnote", 125, [
    "Methods: letters by Games-Howell at 95 %; settings by Welch’s test; equal shot time by analysis of covariance; peak by a parabola with Fieller’s interval.",
    `${spelled("SOURCE")}("COMPARE.TEST"), …("COMPARE.ADJUSTED") and …("BEST.SETTING") have the sources. Tasting hot coffee: let it cool, and let nobody taste what they should not drink.`,
  ]);

  const blockEnd = 5 + mostSettings;
  const block = (letters: string) => `${letters}${first}:${letters}${blockEnd}`;
  sheet.put("AI3", "group", "For the charts");
  sheet.put("AI5", "heading", "Setting");
  sheet.row("AJ5", "heading", ["Setting", "Low", "High"]);
  sheet.cell("AM5", { role: "heading", formula: '"Extraction, "&"%"' });
  const number = (cells: string) => `IF(ISNUMBER(${cells}),${cells},NA())`;
  sheet.chartData(`AI${first}`, number(block("P")), mostSettings, ["0.00"]);
  sheet.chartData(`AJ${first}`, number(block("P")), mostSettings, ["0.00"]);
  sheet.chartData(`AK${first}`, number(block("T")), mostSettings, [percent]);
  sheet.chartData(`AL${first}`, number(block("U")), mostSettings, [percent]);
  sheet.chartData(`AM${first}`, number(block("R")), mostSettings, [percent]);
  sheet.sentence("Y3", "note", `IF(COUNT(${block("AM")})=0,"The chart fills as results are typed.","In words: mean extraction runs from "&${sheet.said(`MIN(${block("R")})`, "percent")}&" to "&${sheet.said(`MAX(${block("R")})`, "percent")}&" over "&COUNT(${block("AM")})&" settings; each bar holds its mean 19 times in 20.")`);
  sheet.chart({
    title: "Extraction by setting: means with 95 % intervals",
    from: "Y4",
    to: "AF19",
    xTitle: "AI5",
    yTitle: "AM5",
    words: "Y3",
    series: [
      { name: "95 % interval", look: "segments", x: `AI${first}:AJ${blockEnd}`, y: `AK${first}:AL${blockEnd}` },
      { name: "Mean", look: "points", x: block("AI"), y: block("AM") },
    ],
  });
  const end = first + charted - 1;
  sheet.cell("AO5", { role: "heading", formula: '"Extraction, "&"%"' });
  sheet.put("AP5", "heading", "Taste, 0 to 10");
  sheet.chartData(`AO${first}`, number(`N${first}:N${end}`), charted, [percent]);
  sheet.chartData(`AP${first}`, number(`L${first}:L${end}`), charted, ["0.0"]);
  const rank = `${spelled("RANK.CORRELATION")}(${column("Taste")},${extraction})`;
  sheet.sentence("Y22", "note", `IF(COUNT(${column("Taste")})<3,"The chart fills as tastes are typed.","In words: the better taste goes with "&IFERROR(IF(INDEX(${rank},1,1)>0,"higher","lower")&" extraction (rank correlation "&FIXED(INDEX(${rank},1,1),2,TRUE)&", p "&${chance(`INDEX(${rank},1,2)`)}&").","neither higher nor lower extraction."))`);
  sheet.chart({
    title: "Taste against extraction",
    from: "Y23",
    to: "AF38",
    xTitle: "AO5",
    yTitle: "AP5",
    words: "Y22",
    series: [{ name: "Shots", look: "points", x: `AO${first}:AO${end}`, y: `AP${first}:AP${end}` }],
  });

  return sheet.described({
    name: "Setting trial",
    purpose: "Try a few settings in a fair order with coded cups, and learn which differ and where extraction or taste peaks.",
    widths: [26, 2, 8, 10, 11, 2, 10, 9, 11, 9, 11, 9, 2, 12, 2, 12, 9, 18, 17, 9, 9, 10, 12, 2,
      10, 10, 10, 10, 10, 10, 10, 10, 2, 2, 10, 10, 9, 9, 16, 2, 16, 17],
    frozenRows: 5,
    print: { area: "A1:AF40", landscape: true },
  });
}

const figures = [
  [2.4, 18.0, 36.2, 25.0, 9.32, 6.5], [2.2, 18.1, 36.0, 27.5, 9.74, 7.5], [2.0, 18.0, 35.8, 31.0, 9.98, 6.5], [2.6, 18.0, 36.4, 22.5, 8.86, 5.5],
  [2.2, 18.0, 36.1, 28.0, 9.81, 7.5], [2.6, 17.9, 36.0, 22.0, 8.79, 5.0], [2.4, 18.0, 36.3, 25.5, 9.41, 7.0], [2.0, 18.1, 36.1, 30.5, 9.87, 6.0],
  [2.6, 18.0, 36.2, 23.0, 8.92, 5.5], [2.0, 18.0, 36.0, 32.0, 9.93, 6.5], [2.2, 17.9, 35.9, 27.0, 9.77, 8.0], [2.4, 18.0, 36.1, 25.0, 9.36, 6.5],
] as const;

const example: Figures = {
  columns: {
    Plan: { Setting: [2.0, 2.2, 2.4, 2.6] },
    "": Object.fromEntries(["Setting", "Dose", "Beverage", "Time", "Strength", "Taste"].map((heading, column) => [heading, figures.map((row) => row[column])])),
  },
};

export const settingTrial: ReadySheet = { describe, example };
