/** Tasting session: a test of difference and a ranking, each with codes, serving order and what the result allows one to say. */
import { spelled } from "../sheet/spelling";
import type { Figures, ReadySheet } from "./ready-sheet";
import type { SheetBuilder } from "./sheet-builder";
import type { SheetDescription } from "./sheet-description";
import { chance } from "./formulas";
import { typeHere, worksOut } from "./words";

const first = 8;
const rows = 24;
const letters = ["A", "B", "C", "D", "E", "F"];

function describe(sheet: SheetBuilder): SheetDescription {
  const { prefix } = sheet;
  const name = (cell: string) => `${prefix}_${cell}`;
  const answers = `${prefix}[Odd cup found]`;
  const correct = `COUNTIF(${answers},"yes")`;
  const answered = `(COUNTIF(${answers},"yes")+COUNTIF(${answers},"no"))`;

  sheet.put("A1", "title", "Tasting session");
  sheet.put("A2", "note", "Left: can the tasters tell two coffees apart? Right: which of several do they put first? Keep the codes’ key away from the tasters.");

  sheet.put("A3", "group", "Triangle: three cups, two alike, one odd");
  sheet.put("A4", "label", "Tasters");
  sheet.input("B4", "tasters", "tasters", 12, { unitBeside: false });
  sheet.put("C4", "label", "Order number");
  sheet.input("D4", "seed", "seed", 1, { unitBeside: false });
  sheet.put("A5", "label", "Risk of a false alarm");
  sheet.input("B5", "significance", "significance", 0.05, { format: "0%", unitBeside: false });
  sheet.row("A6", "group", ["→ Serve", "", "", "", "", typeHere]);
  sheet.row("A7", "heading", ["Taster", "Cups", "1st code", "2nd code", "3rd code"]);
  const panel = `MIN(${rows},${name("tasters")})`;
  const order = `${spelled("RUN.ORDER")}({"A A B";"A B A";"B A A";"B B A";"B A B";"A B B"},ROUNDUP(${panel}/6,0),${name("seed")})`;
  sheet.spill(`A${first}`, `SEQUENCE(${panel})`, rows, ["0"]);
  sheet.spill(`B${first}`, `INDEX(${order},SEQUENCE(${panel})+1,2)`, rows, [undefined]);
  sheet.spill(`C${first}`, `INDEX(${spelled("TASTE.CODES")}(3*${panel},${name("seed")}),SEQUENCE(${panel},3),1)`, rows, ["0", "0", "0"]);
  sheet.table("", `F${first - 1}`, rows, [["Odd cup found", "text", { choices: ["yes", "no"] }]]);

  sheet.put("H3", "group", worksOut);
  sheet.row("H4", "heading", ["", "Number", "Unit"]);
  const results = [
    ["Answers", answered, "0", "tasters"],
    ["Found the odd cup", correct, "0", "tasters"],
    ["Needed at this risk", `IF(${answered}=0,"",${spelled("TASTE.NEEDED")}(${answered},"triangle",${name("significance")}))`, "0", "tasters"],
    ["Chance of this by guessing", `IF(${answered}=0,"",${spelled("TASTE.TRIANGLE")}(${correct},${answered}))`, "0.000", "p"],
  ] as const;
  results.forEach(([label, formula, format, unit], index) => {
    sheet.put(`H${5 + index}`, "label", label);
    sheet.result(`I${5 + index}`, formula, format);
    sheet.put(`J${5 + index}`, "unit", unit);
  });
  sheet.put("H9", "label", "How far apart, d′");
  sheet.spill("I9", `IF(${answered}=0,"",${spelled("TASTE.DISTANCE")}(${correct},${answered},"triangle"))`, 1, ["0.00", "0.00", "0.00"]);
  sheet.put("L9", "unit", "d′, from, to");
  sheet.sentence(
    "H11",
    "verdict",
    `IF(${answered}=0,"Type yes or no for each taster.",IF(I8<=${name("significance")},"They can tell the two apart: "&I6&" of "&I5&" found the odd cup ("&I7&" needed).","Not shown that they can: "&I6&" of "&I5&" found the odd cup ("&IFERROR(I7,"more")&" needed)."))`,
  );
  sheet.sentence("H12", "note", `IF(${answered}=0,"",IF(I8<=${name("significance")},"It says nothing about which is better.","That does not show that the two are alike: with few tasters a real difference is easily missed."))`);
  sheet.lines("H13", "footnote", 95, [
    `Method: exact binomial test, one-sided, chance 1 in 3; d′ with 95 % interval. ${spelled("SOURCE")}("TASTE.TRIANGLE") has the source.`,
    "Serve all cups alike: same cup, amount and temperature, cool enough to drink. Tell tasters about caffeine and anything they may not tolerate, and let them spit.",
  ]);

  const ranks = `${prefix}Ranks`;
  const samples = name("samples");
  const block = `${ranks}[[A]:[F]]`;
  const ranked = `COUNT(${ranks}[A])`;
  const complete = `INDEX(FILTER(${block},ISNUMBER(${ranks}[A])),SEQUENCE(${ranked}),SEQUENCE(1,${samples}))`;
  sheet.put("N3", "group", "Ranking: 1 for the best, equal ranks shared (1.5 and 1.5)");
  sheet.put("N4", "label", "Samples");
  sheet.input("O4", "samples", "samples", 4, { unitBeside: false });
  sheet.put("P4", "label", "Tasters");
  sheet.input("Q4", "rankers", "panelTasters", 8, { unitBeside: false });
  sheet.row("N6", "group", ["→ Serve: sample by serving", "", "", "", "", "", "", "", typeHere]);
  sheet.spill("N7", `${spelled("TASTE.ORDER")}(${samples},${name("rankers")},${name("seed")})`, rows + 1, Array.from({ length: 7 }, () => "0"), true);
  sheet.table("Ranks", "V7", rows, [["Taster", "text"], ...letters.map((letter) => [letter, "ranks", { format: "0.0" }] as const)]);

  sheet.put("AD3", "group", worksOut);
  sheet.row("AD4", "heading", ["", ...letters, "Unit"]);
  sheet.put("AD5", "label", "Cup code");
  sheet.spill("AE5", `INDEX(${spelled("TASTE.CODES")}(${samples},${name("seed")}),SEQUENCE(1,${samples}),1)`, 1, letters.map(() => "0"));
  sheet.put("AD6", "label", "Rank sum");
  letters.forEach((letter, index) => sheet.result(`${["AE", "AF", "AG", "AH", "AI", "AJ"][index]}6`, `IF(COUNT(${ranks}[${letter}])=0,"",SUM(${ranks}[${letter}]))`, "0.0"));
  sheet.put("AK6", "unit", "low is liked");
  sheet.row("AD8", "heading", ["", "Friedman", "df", "p", "Gap that counts"]);
  sheet.put("AD9", "label", "Ranking");
  sheet.spill("AE9", `IF(${ranked}<2,"",${spelled("TASTE.RANKS")}(${complete}))`, 1, ["0.00", "0", "0.000", "0.0"]);
  sheet.sentence(
    "AD11",
    "verdict",
    `IF(${ranked}<2,"Type the ranks of two tasters or more.",IF(AG9<=${name("significance")},"The tasters agree that the samples differ: rank sums further apart than "&FIXED(AH9,1,TRUE)&" differ.","No common order is shown by these tasters (p "&${chance("AG9")}&")."))`,
  );
  sheet.lines("AD12", "footnote", 95, [
    `Method: Friedman’s test, corrected for ties; least significant difference of rank sums. ${spelled("SOURCE")}("TASTE.RANKS") has the source.`,
    "Serving order: Williams squares, so that each sample follows each other equally often.",
  ]);
  sheet.sentence("AD15", "note", `IF(${ranked}<1,"The chart fills as ranks are typed.","In words: the lowest rank sum, the best liked, is "&FIXED(MIN(AE6:AJ6),1,TRUE)&"; the highest is "&FIXED(MAX(AE6:AJ6),1,TRUE)&".")`);
  sheet.put("AO3", "group", "For the chart");
  sheet.row("AO5", "heading", ["Sample, 1 is A", "Rank sum, low is liked"]);
  sheet.chartData("AO6", `IF(SEQUENCE(6)<=${samples},SEQUENCE(6),NA())`, 6, ["0"]);
  sheet.chartData("AP6", "IF(ISNUMBER(INDEX(AE6:AJ6,1,SEQUENCE(6))),INDEX(AE6:AJ6,1,SEQUENCE(6)),NA())", 6, ["0.0"]);
  sheet.chart({
    title: "Rank sums: the lower, the better liked",
    from: "AD16",
    to: "AK31",
    xTitle: "AO5",
    yTitle: "AP5",
    words: "AD15",
    series: [{ name: "Rank sum", look: "points", x: "AO6:AO11", y: "AP6:AP11" }],
  });

  return sheet.described({
    name: "Tasting session",
    purpose: "Run a triangle test or a ranking with coded cups and a fair serving order, and read what the result lets you say.",
    widths: [26, 10, 18, 11, 11, 17, 2, 34, 10, 9, 9, 12, 2,
      11, 11, 11, 11, 11, 11, 11, 2, 12, 8, 8, 8, 8, 8, 8, 2, 14, 11, 9, 9, 18, 9, 9, 14, 2, 2, 2, 17, 25],
    frozenRows: 2,
    print: { area: "A1:AK31", landscape: true },
  });
}

const example: Figures = {
  columns: {
    "": { "Odd cup found": ["yes", "yes", "no", "yes", "yes", "no", "yes", "yes", "no", "yes", "yes", "yes"] },
    Ranks: {
      Taster: ["1", "2", "3", "4", "5", "6", "7", "8"],
      A: [2, 1, 2, 3, 1, 2, 2, 1],
      B: [1, 2, 1, 1, 2, 1, 1, 2],
      C: [3, 3, 4, 2, 4, 3, 3.5, 3],
      D: [4, 4, 3, 4, 3, 4, 3.5, 4],
    },
  },
};

export const tastingSession: ReadySheet = { describe, example };
