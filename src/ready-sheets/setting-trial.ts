/** Setting trial: which of a few settings to keep and what to try next, from shots in a fair order with cups that do not tell. */
import { call, differentIn, drawn, firstOf, given, quoted, say } from "./formulas";
import { meansChart } from "./means-chart";
import type { Figures, ReadySheet } from "./ready-sheet";
import type { SheetBuilder } from "./sheet-builder";
import type { SheetDescription } from "./sheet-description";
import { typeHere, worksOut } from "./words";

/** The first row of shots. */
const first = 9;
const shots = 30;
const mostSettings = 8;
const mostRuns = 240;
const tasters = ["Taste 1", "Taste 2", "Taste 3"];
const yes = "yes";
/** Rows that the charts look at; more than anyone pulls in a trial. */
const charted = 120;

function describe(sheet: SheetBuilder): SheetDescription {
  const percent = sheet.format("percent");
  const column = (heading: string) => sheet.column(heading);
  const plan = sheet.column("To try", "Plan");
  const [repeats, mornings, seed] = ["repeats", "mornings", "seed"].map((name) => sheet.named(name));
  const settingsPlanned = `COUNTA(${plan})`;
  const runs = `${settingsPlanned}*${repeats}`;
  sheet.columns([5, 8, 9, 6, 7, 10, 7, 9, 7, 7, 7, 7, 11, 10, 7, 1, 15, 11, 8, 7, 7, 7, 6]);

  sheet.put("A1", "title", "Setting trial");

  const planned = (formula: string) => `IF(${settingsPlanned}=0,"",${formula})`;
  const order = call("RUN.ORDER", `FILTER(${plan},${plan}<>"")`, repeats!, seed!);
  const [settingOfRun] = sheet.workingColumn(["Setting"], planned(`INDEX(${order},SEQUENCE(${runs})+1,2)`), mostRuns);
  const [morningOfRun] = sheet.workingColumn(["Morning"], planned(`ROUNDUP(ROUNDUP(SEQUENCE(${runs})/${settingsPlanned},0)*${mornings}/${repeats},0)`), mostRuns);
  const [cupOfRun] = sheet.workingColumn(["Cup"], planned(call("TASTE.CODES", runs, seed!)), mostRuns);
  const run = sheet.ownCell("Run");
  const ofRun = (list: string | undefined) => `IF(ISNUMBER(${run}),IF(${run}>${runs},"",INDEX(${list},${run},1)),"")`;

  sheet.put("A6", "group", `${typeHere}, and type over what another setting, morning or cup was used`);
  sheet.put("N6", "group", "→");
  sheet.unitRow("E7", ["mass", "mass", "time", "percent"]);
  sheet.row("J7", "unit", ["0 to 10", "0 to 10", "0 to 10"]);
  sheet.unitRow("N7", ["percent", { words: "mean" }]);
  sheet.table("", "A8", shots, [
    ["Run", "runs", { values: Array.from({ length: shots }, (_, index) => index + 1) }],
    ["Setting", "anySetting", { formula: ofRun(settingOfRun) }],
    ["Morning", "blocks", { formula: ofRun(morningOfRun) }],
    ["Cup", "anySetting", { formula: ofRun(cupOfRun) }],
    ["Dose", "dose"], ["Beverage", "beverage"], ["Time", "time"], ["Strength", "strength"], ["Grind", "anySetting"],
    ...tasters.map((heading) => [heading, "results", { format: "0.0" }] as const),
    ["Note", "text"],
  ]);
  sheet.row("N8", "heading", ["Extraction", "Taste"]);
  const extraction = `IF(${column("Strength")}="","",${call("EXTRACTION", column("Dose"), column("Beverage"), column("Strength"))})`;
  sheet.spill(`N${first}`, extraction, sheet.besideRows, [percent]);
  const inUse = tasters.map((heading) => `IF(COUNT(${column(heading)})>0,1,0)`).join("+");
  const scored = tasters.map((heading) => `IF(ISNUMBER(${column(heading)}),1,0)`).join("+");
  const sum = tasters.map((heading) => `IF(ISNUMBER(${column(heading)}),${column(heading)},0)`).join("+");
  const tasteOfShot = `IF((${inUse})*((${scored})=(${inUse}))>0,(${sum})/MAX(1,${inUse}),"")`;
  sheet.spill(`O${first}`, tasteOfShot, sheet.besideRows, ["0.0"]);

  sheet.put("Q6", "group", typeHere);
  sheet.put("Q7", "label", "What you vary");
  sheet.textInput("R7", "varied", "Brew temperature");
  sheet.put("Q8", "label", "Its unit");
  sheet.textInput("R8", "unit", "°C");
  sheet.put("Q9", "label", "Shots of each");
  sheet.input("R9", "repeats", "repeats", 4, { unitBeside: false });
  sheet.put("Q10", "label", "Mornings");
  sheet.input("R10", "mornings", "repeats", 1, { unitBeside: false });
  sheet.put("Q11", "label", "Order number");
  sheet.input("R11", "seed", "seed", 1, { unitBeside: false });
  sheet.put("Q12", "label", "Back to time?");
  sheet.textInput("R12", "redialled", "no", [yes, "no"]);
  sheet.put("Q13", "label", "Time wanted");
  sheet.input("R13", "time", "time", 27);
  sheet.put("Q14", "label", "Worth having");
  sheet.input("R14", "worth_taste", "worth", 0.5, { format: "0.0", unitBeside: false });
  sheet.put("S14", "unit", "of taste");
  sheet.input("R15", "worth_extraction", "readPercent", 0.5);
  sheet.table("Plan", "U8", mostSettings, [["To try", "anySetting"]]);

  const results = `CHOOSE({1,2,3,4},${[...tasters.map((heading) => given(column(heading))), extraction].join(",")})`;
  const outcomes = `CHOOSE({1,2,3,4},${[...tasters, "Extraction, %"].map(quoted).join(",")})`;
  const lost = `COUNTIF(${column("Note")},"*lost*")/MAX(1,${settingsPlanned})`;
  const isRedialled = `${sheet.named("redialled")}="${yes}"`;
  const decision = call(
    "COMPARE.DECISION", column("Setting"), results, outcomes, column("Morning"), quoted("shots"), sheet.named("unit"),
    `CHOOSE({1,2},${sheet.named("worth_taste")},${sheet.named("worth_extraction")})`, column("Run"), `${repeats}-${lost}`,
    `IF(${column("Time")}="","",IF(${isRedialled},${column("Time")},""))`, sheet.named("time"),
  );
  const [branch, decided, sure, next, chartTitle, method] = sheet.workingColumn(["Rule", "Decision", "How sure", "Next", "Chart title", "Method"], decision, 2);
  const taste = (list: string | undefined) => `INDEX(${list},1,1)`;
  const strength = (list: string | undefined) => `INDEX(${list},2,1)`;
  const isTasted = `COUNT(${tasters.map(column).join(",")})>0`;
  const tasteFirst = sheet.working("Taste speaks first", firstOf([
    [`NOT(${isTasted})`, "FALSE"], [`AND(${taste(branch)}>7,${taste(branch)}<14)`, "TRUE"], [`AND(${strength(branch)}>8,${strength(branch)}<14)`, "FALSE"],
  ], "TRUE"));
  const ofBoth = (list: string | undefined) => [`IF(${tasteFirst},${taste(list)},${strength(list)})`, `IF(${tasteFirst},${strength(list)},${taste(list)})`] as const;
  const isOpen = `AND(${strength(branch)}>8,${strength(branch)}<13,${isTasted},${taste(branch)}>13)`;
  const parted = `IF(AND(${taste(branch)}=9,${strength(branch)}=9),${quoted(" Where they part, go by taste.")},"")`;
  const otherSaid = `IF(${isTasted},IF(${ofBoth(branch)[1]}>1,${ofBoth(decided)[1]},""),"")`;
  sheet.decision("O",
    ofBoth(decided)[0],
    `TRIM(${ofBoth(sure)[0]}&" "&${ofBoth(next)[0]})`,
    `TRIM(${otherSaid}&IF(${isOpen},${quoted(" A better taste is not shown.")},"")&${parted})`,
    `IF(${isTasted},TRIM(${ofBoth(sure)[1]}&" "&${ofBoth(next)[1]}),"")`,
  );

  sheet.put("Q18", "group", `${worksOut}: extraction by setting`);
  sheet.unitRow("R19", [{ words: "shots" }, "percent", "percent", "percent", "percent"]);
  const compared = (result: string) => `IF(COUNT(${result})<2,"",${call("COMPARE", column("Setting"), result, "", column("Morning"))})`;
  sheet.spill("Q20", compared(extraction), mostSettings + 1, [undefined, "0", percent, percent, percent, percent, undefined], true);
  sheet.put("Q30", "group", `${worksOut}: taste by setting`);
  sheet.spill("Q32", compared(tasteOfShot), mostSettings + 1, [undefined, "0", "0.0", "0.0", "0.0", "0.0", undefined], true);
  sheet.put("Q42", "note", "Settings that share a letter: no difference between them is shown.");
  sheet.cell("Q43", { role: "footnote", formula: say`Method: ${`IF(${isTasted},${say`taste, ${taste(method)}`}&" ","")`}Extraction, ${strength(method)}` });
  sheet.lines("Q44", "footnote", 60, [
    "Letters judge each table alone; the decision, both together.",
    `${call("SOURCE", quoted("COMPARE.DECISION"))} has the sources.`,
    "Serve cups by their code and let them cool; caffeine adds up, and nobody tastes what they should not drink.",
    "Pull the shots in the order shown. Purge the grinder after each change of setting, and change one thing only. A lost shot: write “lost” in its note.",
  ]);

  const isNumbers = `COUNT(${plan})=${settingsPlanned}`;
  const axis = sheet.working("Settings axis", `${sheet.named("varied")}&IF(${isNumbers},", "&${sheet.named("unit")},": places in the table of means")`);
  const means = (name: string, top: number, row: number, title: string, axisWords: string, format: string | undefined): void => {
    const block = (letter: string) => `${letter}${row + 1}:${letter}${row + mostSettings}`;
    const drawnMeans = meansChart(sheet, {
      title: `${name} by setting: means with 95 % intervals`, from: `Q${top + 1}`, to: `W${top + 14}`, words: `Q${top}`,
      xTitle: axis,
      yTitle: sheet.working(`${name} axis`, axisWords),
      heading: `${name}: setting`,
      place: `IF(ISNUMBER(${block("S")}),IF(ISNUMBER(${block("Q")}),${block("Q")},SEQUENCE(${mostSettings})),NA())`,
      mean: block("S"), low: block("U"), high: block("V"), rows: mostSettings, format,
    });
    sheet.sentence(`Q${top}`, "note", `IF(COUNT(${drawnMeans})=0,"The chart fills as results are typed.",${say`${title}. Each bar holds its mean 19 times in 20.`})`);
  };
  const extractionAxis = `"Extraction, %"`;
  means("Taste", 51, 32, taste(chartTitle), quoted("Taste, 0 to 10"), "0.0");
  means("Extraction", 67, 20, strength(chartTitle), extractionAxis, percent);

  const [shotRun] = sheet.workingColumn(["Run"], `IF(ISNUMBER(${column("Run")}),IF(${column("Strength")}="",NA(),${column("Run")}),NA())`, charted);
  const [shotExtraction] = sheet.workingColumn(["Extraction"], `IF(${column("Strength")}="",NA(),${extraction})`, charted, [percent]);
  const [shotTaste] = sheet.workingColumn(["Taste"], drawn(tasteOfShot), charted, ["0.0"]);
  const [rho, p] = sheet.workingColumn(["Rank correlation", "p"], call("RANK.CORRELATION", tasteOfShot, extraction), 1);
  const runAxis = sheet.working("Runs axis", quoted("Run, in the order pulled"));
  const extractionTitle = sheet.working("Shots axis", extractionAxis);
  const tasteTitle = sheet.working("Tastes axis", quoted("Taste, 0 to 10"));
  const severalMornings = `${differentIn(column("Morning"))}>1`;
  sheet.sentence("Q83", "note", `IF(ISNUMBER(${p}),${firstOf([
    [severalMornings, quoted("Over several mornings: a slope here may be the mornings’ own.")],
    [`${p}>=0.01`, quoted("No link between taste and extraction is shown.")],
    [`${rho}>0`, quoted("Taste rose with extraction.")],
  ], quoted("Taste fell with extraction."))},"The chart fills as tastes are typed.")`);
  sheet.chart({
    title: "Taste against extraction", from: "Q84", to: "W97", xTitle: extractionTitle, yTitle: tasteTitle, words: "Q83",
    series: [{ name: "Shots", look: "points", x: shotExtraction!, y: shotTaste! }],
  });
  sheet.sentence("Q99", "note", `IF(COUNT(${shotExtraction})=0,"The chart fills as results are typed.","Extraction over the runs: a drift would rise or fall from left to right.")`);
  sheet.chart({
    title: "Extraction in the order pulled", from: "Q100", to: "W113", xTitle: runAxis, yTitle: extractionTitle, words: "Q99",
    series: [{ name: "Shots", look: "marked line", x: shotRun!, y: shotExtraction! }],
  });

  return sheet.described({
    name: "Setting trial",
    purpose: "Try a few settings in a fair order with coded cups, and learn which to keep, how sure that is, and what to try next.",
    frozenRows: 8,
    print: { area: "A1:W113", landscape: true, repeated: "1:8" },
  });
}

/** Dose, beverage, time, strength and two tasters' scores of the twelve runs, in the order that the sheet plans. */
const pulled = [
  [18.0, 36.2, 27.5, 9.86, 7.0, 7.5], [18.1, 36.0, 28.0, 9.71, 6.0, 6.5], [18.0, 35.9, 26.5, 10.12, 6.5, 6.0], [18.0, 36.1, 27.5, 9.52, 6.0, 6.0],
  [17.9, 36.0, 27.0, 10.03, 6.0, 6.5], [18.0, 36.3, 28.0, 9.93, 7.5, 7.0], [18.0, 36.0, 26.0, 10.24, 6.5, 6.5], [18.1, 36.2, 27.0, 9.79, 6.0, 5.5],
  [18.0, 36.1, 27.5, 10.08, 7.5, 7.5], [18.0, 36.0, 28.5, 9.70, 5.5, 6.0], [17.9, 35.8, 27.0, 9.97, 7.0, 7.5], [18.0, 36.2, 26.5, 10.19, 6.5, 6.0],
] as const;

const example: Figures = {
  columns: {
    Plan: { "To try": [88, 91, 94] },
    "": Object.fromEntries(["Dose", "Beverage", "Time", "Strength", "Taste 1", "Taste 2"].map((heading, column) => [heading, pulled.map((row) => row[column])])),
  },
  cells: { mornings: 2 },
};

export const settingTrial: ReadySheet = { describe, example };
