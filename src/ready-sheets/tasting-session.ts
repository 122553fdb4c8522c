/** Tasting session: can they tell two coffees apart, or which of several do they like? Codes and serving order, and what the answers let one say. */
import { call, drawn, firstOf, quoted, say } from "./formulas";
import type { Figures, ReadySheet } from "./ready-sheet";
import type { SheetBuilder } from "./sheet-builder";
import type { SheetDescription } from "./sheet-description";
import { typeHere, worksOut } from "./words";

const rows = 24;
const letters = ["A", "B", "C", "D", "E", "F"];
const asked = ["which is odd", "which is liked"] as const;

function describe(sheet: SheetBuilder): SheetDescription {
  const [question, tasters, risk, seed, samples] = ["asked", "tasters", "significance", "seed", "samples"].map((name) => sheet.named(name)) as [string, string, string, string, string];
  const isRanking = `${question}=${quoted(asked[1])}`;
  const odd = sheet.column("Odd cup found");
  const ranks = `${sheet.prefix}[[A]:[F]]`;
  const panel = `MIN(${rows},MAX(1,${tasters}))`;
  const served = `MIN(${letters.length},MAX(2,${samples}))`;
  const correct = `COUNTIF(${odd},"yes")`;
  const answered = `(COUNTIF(${odd},"yes")+COUNTIF(${odd},"no"))`;
  sheet.columns([8, 8, 6, 6, 6, 6, 6, 6, 2, 11, 14, 5, 5, 5, 5, 5, 5, 2, 25, 10, 9, 9]);
  sheet.put("A1", "title", "Tasting session");

  const advice = `IF(${isRanking},${call("TASTE.RANKSADVICE", ranks, '""', '""', panel, risk)},${call("TASTE.ADVICE", correct, quoted("triangle"), answered, panel, risk)})`;
  const [, sentence, next] = sheet.workingColumn(["Rule", "Sentence", "Next"], advice, 1) as [string, string, string];
  sheet.decision("V", `INDEX(${sentence},1,1)`, `INDEX(${next},1,1)`);

  sheet.put("A4", "group", `${typeHere}: what is asked, and by how many`);
  sheet.put("A5", "label", "Asked");
  sheet.textInput("B5", "asked", asked[0], asked, "C");
  sheet.put("D5", "label", "Tasters");
  sheet.input("F5", "tasters", "panelTasters", 12, { unitBeside: false });
  sheet.put("G5", "label", "Cups");
  sheet.input("H5", "samples", "samples", 4, { unitBeside: false });
  sheet.put("J5", "label", "Risk");
  sheet.input("K5", "significance", "significance", 0.05, { format: "0%", unitBeside: false });
  sheet.put("L5", "label", "Order number");
  sheet.input("P5", "seed", "seed", 1, { unitBeside: false });

  sheet.put("A6", "group", "→ Serve: codes from left to right; keep the cups from the tasters");
  sheet.row("A7", "heading", ["Taster", "Cups", "1st", "2nd", "3rd", "4th", "5th", "6th"]);
  sheet.spill("A8", `SEQUENCE(${panel})`, rows, ["0"]);
  const triangles = call("RUN.ORDER", '{"A A B";"A B A";"B A A";"B B A";"B A B";"A B B"}', `ROUNDUP(${panel}/6,0)`, seed);
  const order = call("TASTE.ORDER", served, panel, seed);
  sheet.spill("B8", `IF(${isRanking},"",INDEX(${triangles},SEQUENCE(${panel})+1,2))`, rows, [undefined]);
  sheet.spill(
    "C8",
    `IF(${isRanking},INDEX(${call("TASTE.CODES", served, seed)},INDEX(${order},SEQUENCE(${panel})+1,SEQUENCE(1,${served})+1),1),INDEX(${call("TASTE.CODES", `3*${panel}`, seed)},SEQUENCE(${panel},3),1))`,
    rows,
    letters.map(() => "0"),
  );

  sheet.put("J6", "group", `${typeHere}: yes or no, or ranks, 1 for the best (tied: 1.5)`);
  sheet.table("", "J7", rows, [
    ["Taster", "text"],
    ["Odd cup found", "text", { choices: ["yes", "no"] }],
    ...letters.map((letter) => [letter, "ranks", { format: "0.0" }] as const),
  ]);

  sheet.put("S6", "group", worksOut);
  sheet.row("S7", "heading", ["Which is odd", "Number", "From", "To"]);
  // Before all have answered nothing is told: stopping when it suits finds what is not there.
  const once = (formula: string) => `IF(OR(${isRanking},${answered}<${panel}),"",${formula})`;
  const results = [
    ["Answers in", `IF(${isRanking},"",${answered})`, "0"],
    ["Found the odd cup", once(correct), "0"],
    ["Needed at this risk", once(`IFERROR(${call("TASTE.NEEDED", answered, quoted("triangle"), risk)},"")`), "0"],
    ["Chance of this by guessing", once(call("TASTE.TRIANGLE", correct, answered)), "0.000"],
  ] as const;
  results.forEach(([label, formula, format], index) => {
    sheet.put(`S${8 + index}`, "label", label);
    sheet.result(`T${8 + index}`, formula, format);
  });
  sheet.put("S12", "label", "How far apart, d′");
  sheet.spill("T12", once(call("TASTE.DISTANCE", correct, answered, quoted("triangle"))), 1, ["0.00", "0.00", "0.00"]);

  const ranked = `SUMPRODUCT(1*(${letters.map((letter) => `ISNUMBER(${sheet.column(letter)})`).join("+")}>=${served}))`;
  sheet.row("S14", "heading", ["Which is liked", "Code", "Rank sum"]);
  letters.forEach((letter, index) => {
    sheet.put(`S${15 + index}`, "label", `Sample ${letter}`);
    sheet.result(`T${15 + index}`, `IF(AND(${isRanking},${index + 1}<=${served}),INDEX(${call("TASTE.CODES", served, seed)},${index + 1},1),"")`, "0");
    sheet.result(`U${15 + index}`, `IF(AND(${isRanking},${index + 1}<=${served},${ranked}>=${panel}),SUM(${sheet.column(letter)}),"")`, "0.0");
  });
  const places = sheet.workingColumn(["Sample"], `IF(ISNUMBER(U15:U20),SEQUENCE(${letters.length}),NA())`, letters.length, ["0"])[0]!;
  const sums = sheet.workingColumn(["Rank sum"], drawn("U15:U20"), letters.length, ["0.0"])[0]!;
  const xTitle = sheet.working("Samples axis", quoted("Sample, 1 is A"));
  const yTitle = sheet.working("Sums axis", quoted("Rank sum, low is liked"));
  sheet.sentence(
    "S22",
    "note",
    firstOf([[`COUNT(${sums})=0`, quoted("The chart fills when all ranks are in.")]], say`Lowest rank sum, the best liked: ${"FIXED(MIN(U15:U20),1,TRUE)"}; highest: ${"FIXED(MAX(U15:U20),1,TRUE)"}.`),
  );
  sheet.chart({
    title: "Rank sums: the lower, the better liked", from: "S23", to: "V36", xTitle, yTitle, words: "S22",
    series: [{ name: "Rank sum", look: "points", x: places, y: sums }],
  });
  sheet.lines("S38", "footnote", 52, [
    `Method: triangle, exact binomial test, one-sided, chance 1 in 3; d′ with 95 % interval; ranking, Friedman’s test, pairs by Nemenyi’s; serving by Williams squares. ${call("SOURCE", quoted("TASTE.ADVICE"))} and …("TASTE.RANKSADVICE") have the sources.`,
    "Serve all cups alike: same cup, amount and temperature, cool enough to drink. Tell tasters about caffeine and allergens such as milk, and let them spit.",
  ]);
  return sheet.described({
    name: "Tasting session",
    purpose: "Run a triangle test or a ranking with coded cups and a fair serving order, and read what the result lets you say.",
    frozenRows: 7,
    print: { area: "A1:V46", landscape: true, repeated: "1:7" },
  });
}

const example: Figures = {
  columns: {
    "": {
      Taster: ["1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12"],
      "Odd cup found": ["yes", "yes", "no", "yes", "yes", "no", "yes", "yes", "no", "yes", "yes", "yes"],
      A: [2, 1, 2, 3, 1, 2, 2, 1, 2, 1, 2, 2],
      B: [1, 2, 1, 1, 2, 1, 1, 2, 1, 2, 1, 1],
      C: [3, 3, 4, 2, 4, 3, 3.5, 3, 3, 4, 3, 3],
      D: [4, 4, 3, 4, 3, 4, 3.5, 4, 4, 3, 4, 4],
    },
  },
};

export const tastingSession: ReadySheet = { describe, example };
