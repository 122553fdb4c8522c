/** Instruments: whether a refractometer and a scale can be trusted, and what half a point of extraction is worth by them. */
import { call, differentIn, firstOf, quoted } from "./formulas";
import type { Figures, ReadySheet } from "./ready-sheet";
import type { SheetBuilder } from "./sheet-builder";
import type { SheetDescription } from "./sheet-description";
import { typeHere, worksOut } from "./words";

/** Rows that the chart looks at. */
const charted = 60;

function describe(sheet: SheetBuilder): SheetDescription {
  const percent = sheet.format("percent");
  const [read, known] = ["Reading", "Known"].map((heading) => sheet.column(heading)) as [string, string];
  const [people, repeats] = ["Person", "Read again"].map((heading) => sheet.column(heading, "Repeat")) as [string, string];
  const reading = sheet.named("reading");
  sheet.columns([12, 12, 2, 13, 13, 2, 27, 10, 10, 10, 8]);
  sheet.put("A1", "title", "Instruments");

  const asked = ["dose", "beverage", "scale"].map((name) => sheet.named(name)) as [string, string, string];
  const advice = call("INSTRUMENT.ADVICE", read, known, reading, repeats, people, ...asked);
  const [, , sentence] = sheet.workingColumn(["Topic", "Rule", "Sentence"], advice, 3) as [string, string, string];
  sheet.decision("K", `INDEX(${sentence},2,1)`, `INDEX(${sentence},3,1)`);
  const [true_, low, high] = sheet.workingColumn(["True", "Low", "High"], `IF(COUNT(${known})<2,"",${call("CALIBRATE", read, known, reading)})`, 1) as [string, string, string];
  const ownSd = sheet.working(
    "SD of one person",
    firstOf([[`COUNT(${repeats})<3`, '""'], [`${differentIn(people)}<2`, `STDEV(${repeats})`]], `INDEX(${call("REPEATABILITY", repeats, people)},1,1)`),
  );
  // Without an SD of one's own, the function takes what is common.
  const doubt = sheet.working("Doubt", call("EXTRACTION.UNCERTAINTY", ...asked.slice(0, 2), reading, asked[2], asked[2], `IF(ISNUMBER(${ownSd}),${ownSd},"")`));

  sheet.put("A5", "group", `${typeHere}: known values`);
  sheet.unitRow("A6", ["percent", "percent"]);
  sheet.table("", "A7", 12, [["Reading", "readPercent"], ["Known", "readPercent"]]);
  sheet.put("D5", "group", `${typeHere}: one cup, again`);
  sheet.unitRow("E6", ["percent"]);
  sheet.table("Repeat", "D7", 20, [["Person", "operators"], ["Read again", "repeatReadings"]]);

  sheet.put("G5", "group", typeHere);
  const inputs = [["Reading", "reading", "readPercent", 9.4], ["Dose", "dose", "dose", 18], ["Beverage", "beverage", "beverage", 36], ["Scale, standard uncertainty", "scale", "scaleError", 0.1]] as const;
  inputs.forEach(([label, name, kind, value], index) => {
    sheet.put(`G${7 + index}`, "label", label);
    sheet.input(`H${7 + index}`, name, kind, value);
  });
  sheet.put("G13", "group", worksOut);
  sheet.row("G14", "heading", ["", "Expected", "From", "To", "Unit"]);
  sheet.put("G15", "label", "True value");
  for (const [column, cell] of [["H", true_], ["I", low], ["J", high]] as const) sheet.result(`${column}15`, `IF(ISNUMBER(${cell}),${cell},"")`, percent);
  sheet.unit("K15", "percent");
  sheet.put("G16", "label", "± of an extraction");
  sheet.result("H16", `IF(ISNUMBER(${doubt}),${doubt},"")`, percent);
  sheet.unit("K16", "percent");

  const place = (list: string) => `IF(ISNUMBER(${known}),IF(ISNUMBER(${read}),${list},NA()),NA())`;
  const [x] = sheet.workingColumn(["Known"], place(known), charted, [percent]) as [string];
  const [y] = sheet.workingColumn(["Reading"], place(read), charted, [percent]) as [string];
  const xTitle = sheet.working("Known axis", quoted("Known, %"));
  const yTitle = sheet.working("Reading axis", quoted("Reading, %"));
  sheet.sentence("G18", "note", `IF(COUNT(${x})<2,"The chart fills as known solutions are read.","Readings against known values; an instrument without error reads the same on both axes.")`);
  sheet.chart({
    title: "Readings against known values", from: "G19", to: "K34", xTitle, yTitle, words: "G18",
    series: [{ name: "Known value", look: "line", x, y: x }, { name: "Reading", look: "points", x, y }],
  });
  sheet.lines("G36", "footnote", 60, [
    `Method: straight line of reading on known value, turned round, 95 %; first-order errors, ±, 19 in 20. ${call("SOURCE", quoted("CALIBRATE"))} and …("EXTRACTION.UNCERTAINTY") have the sources.`,
    "Weigh known solutions out yourself or buy them with a certificate. Let samples cool to the temperature that the instrument’s maker states.",
  ]);
  return sheet.described({
    name: "Instruments",
    purpose: "Read known solutions and one cup several times, and learn whether the instruments can be trusted and what half a point is worth.",
    frozenRows: 4,
    print: { area: "A1:K40", onePage: true },
  });
}

const example: Figures = {
  columns: {
    "": { Reading: [0.04, 5.1, 8.13, 10.22, 12.16], Known: [0, 5, 8, 10, 12] },
    Repeat: { Person: ["First", "First", "First", "Second", "Second", "Second"], "Read again": [9.41, 9.45, 9.38, 9.47, 9.43, 9.5] },
  },
};

export const instruments: ReadySheet = { describe, example };
