/** Tasting panel: in what do these cups differ? Several attributes scored by several tasters. */
import { call, firstOf, given, quoted, say } from "./formulas";
import { meansChart } from "./means-chart";
import type { Figures, ReadySheet } from "./ready-sheet";
import type { SheetBuilder } from "./sheet-builder";
import type { SheetDescription } from "./sheet-description";
import { typeHere, worksOut } from "./words";

const attributes = [1, 2, 3, 4, 5, 6] as const;
const usual = ["Liking", "Sweet", "Bitter", "Sour", "Body", "Aftertaste"];
const mostCups = 8;

function describe(sheet: SheetBuilder): SheetDescription {
  const [tasters, cups] = [sheet.column("Taster"), sheet.column("Cup")];
  const scores = attributes.map((number) => sheet.column(`Score ${number}`));
  const named = attributes.map((number) => `IF(${sheet.named(`attribute${number}`)}="",${quoted(`Score ${number}`)},${sheet.named(`attribute${number}`)})`);
  const each = `CHOOSE({${attributes.join(",")}},`;
  sheet.columns([12, 9, 9, 9, 9, 9, 9, 9, 2, 14, 14, 2, 12, 9, 9, 9, 9, 9]);
  sheet.put("A1", "title", "Tasting panel");

  const decision = call(
    "COMPARE.DECISION", cups, `${each}${scores.map(given).join(",")})`, `${each}${named.join(",")})`, given(tasters), quoted("tasters"), quoted(""), sheet.named("worth"),
  );
  const [branch, decided, sure, next] = sheet.workingColumn(["Rule", "Decision", "How sure", "Next", "Chart title", "Method"], decision, attributes.length);
  const is = (from: number, to: number) => `(${branch}>=${from})*(${branch}<=${to})`;
  const claimed = `SUM(IF(ISNUMBER(${branch}),${is(9, 12)},0))`;
  const inUse = `SUM(IF(ISNUMBER(${branch}),${is(2, 16)},0))`;
  const joined = (list: string | undefined, from: number, to: number) => `TEXTJOIN(" ",TRUE,UNIQUE(IF(ISNUMBER(${branch}),IF(${is(from, to)}>0,${list},""),"")))`;
  const waiting = `SUM(IF(ISNUMBER(${branch}),${is(2, 8)},0))`;
  sheet.decision("R",
    firstOf([
      [`COUNT(${scores.join(",")})=0`, quoted("Type who tastes, the cups and their scores; serve by code.")],
      [`NOT(ISNUMBER(INDEX(${branch},1,1)))`, quoted("Each score needs its taster and its cup.")],
      [`${claimed}>0`, joined(decided, 9, 12)],
      [`${waiting}=${inUse}`, `INDEX(FILTER(${decided},IF(ISNUMBER(${branch}),${is(2, 8)},0)>0),1,1)`],
    ], quoted("No attribute is shown to differ between the cups.")),
    `IF(${claimed}>0,${joined(sure, 9, 12)},"")`,
    joined(next, 9, 16),
  );

  sheet.put("A5", "group", `${typeHere}: a row for each taster and cup`);
  sheet.row("C6", "unit", attributes.map(() => "0 to 10"));
  sheet.table("", "A7", 40, [
    ["Taster", "anyTaster"], ["Cup", "sample"], ...attributes.map((number) => [`Score ${number}`, "results", { format: "0.0" }] as const),
  ]);
  sheet.put("J5", "group", `${typeHere}: what is scored`);
  attributes.forEach((number, index) => {
    sheet.put(`J${7 + index}`, "label", `Score ${number}`);
    sheet.textInput(`K${7 + index}`, `attribute${number}`, usual[index]);
  });
  sheet.put("J14", "label", "Worth having");
  sheet.input("K14", "worth", "worth", 1, { format: "0.0", unitBeside: false });
  sheet.put("J15", "label", "Shown: score");
  sheet.input("K15", "shown", "repeats", 1, { unitBeside: false });

  const shown = `CHOOSE(MAX(1,MIN(6,${sheet.named("shown")})),${scores.map(given).join(",")})`;
  const shownName = `CHOOSE(MAX(1,MIN(6,${sheet.named("shown")})),${named.join(",")})`;
  sheet.put("M5", "group", worksOut);
  sheet.cell("M6", { role: "note", formula: say`Means of ${shownName}` });
  sheet.spill("M7", `IF(COUNT(${shown})<4,"",${call("TASTE.SCORES", given(tasters), given(cups), shown)})`, mostCups + 1, [undefined, "0", "0.0", "0.0", "0.0", undefined], true);
  sheet.put("M17", "note", "Cups that share a letter: no difference between them is shown.");

  const block = (letter: string) => `${letter}8:${letter}${7 + mostCups}`;
  const means = meansChart(sheet, {
    title: "Means of the cups with 95 % intervals", from: "M20", to: "R35", words: "M19",
    xTitle: sheet.working("Cups axis", quoted("Cup, by its place in the table of means")),
    yTitle: sheet.working("Scores axis", `${shownName}&", 0 to 10"`),
    heading: "Place",
    place: `IF(ISNUMBER(${block("O")}),SEQUENCE(${mostCups}),NA())`,
    mean: block("O"), low: block("P"), high: block("Q"), rows: mostCups,
  });
  sheet.sentence("M19", "note", `IF(COUNT(${means})=0,"The chart fills as scores are typed.",${say`${shownName}: each bar holds the cup’s mean 19 times in 20, by these tasters.`})`);
  sheet.lines("M37", "footnote", 64, [
    `Method: tasters as blocks, Tukey–Kramer, Holm over the attributes. About these pulls and tasters only. Letters judge one attribute alone; the decision, all together. ${call("SOURCE", quoted("COMPARE.DECISION"))} and …("TASTE.SCORES") have the sources.`,
    "Serve by code, let the coffee cool, and let tasters spit: caffeine adds up. Name allergens such as milk; nobody tastes what they should not drink.",
  ]);
  return sheet.described({
    name: "Tasting panel",
    purpose: "Let several tasters score cups in several attributes, and learn in which the cups differ and by how much.",
    frozenRows: 7,
    print: { area: "A1:R48", landscape: true, repeated: "1:7" },
  });
}

/** Taster, cup, liking, sweet and bitter. */
const scored = [
  ["First", "A", 6, 5, 4], ["First", "B", 7.5, 6.5, 4.5], ["First", "C", 5.5, 5, 4], ["Second", "A", 5.5, 4.5, 4.5], ["Second", "B", 7, 6, 4], ["Second", "C", 5, 4.5, 4.5],
  ["Third", "A", 6.5, 5.5, 4], ["Third", "B", 8, 7, 4], ["Third", "C", 6, 5, 4.5], ["Fourth", "A", 6, 5, 5], ["Fourth", "B", 7, 6.5, 4.5], ["Fourth", "C", 6, 5.5, 5],
] as const;

const example: Figures = {
  columns: { "": Object.fromEntries(["Taster", "Cup", "Score 1", "Score 2", "Score 3"].map((heading, column) => [heading, scored.map((row) => row[column])])) },
};

export const tastingPanel: ReadySheet = { describe, example };
