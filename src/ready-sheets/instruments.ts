/** Instruments: whether a refractometer and a scale can be trusted, and what half a point of extraction is worth by them. */
import { call, differentIn, firstOf, quoted, say } from "./formulas";
import type { Figures, ReadySheet } from "./ready-sheet";
import type { SheetBuilder } from "./sheet-builder";
import type { SheetDescription } from "./sheet-description";
import { typeHere, worksOut } from "./words";

/** Points of extraction that a bar asks about. */
const asked = 0.5;
/** Rows that the chart looks at. */
const charted = 60;

function describe(sheet: SheetBuilder): SheetDescription {
  const percent = sheet.format("percent");
  const [read, known] = ["Reading", "Known"].map((heading) => sheet.column(heading)) as [string, string];
  const [people, repeats] = ["Person", "Read again"].map((heading) => sheet.column(heading, "Repeat")) as [string, string];
  const reading = sheet.named("reading");
  sheet.columns([12, 12, 2, 13, 13, 2, 27, 10, 10, 10, 8]);
  sheet.put("A1", "title", "Instruments");

  const [true_, low, high] = sheet.workingColumn(["True", "Low", "High"], `IF(COUNT(${known})<2,"",${call("CALIBRATE", read, known, reading)})`, 1) as [string, string, string];
  const ownSd = sheet.working(
    "SD of one person",
    firstOf([[`COUNT(${repeats})<3`, '""'], [`${differentIn(people)}<2`, `STDEV(${repeats})`]], `INDEX(${call("REPEATABILITY", repeats, people)},1,1)`),
  );
  const [dose, beverage, scale] = ["dose", "beverage", "scale"].map((name) => sheet.named(name)) as [string, string, string];
  // Without an SD of one's own, the function takes what is common.
  const doubt = sheet.working("Doubt", call("EXTRACTION.UNCERTAINTY", dose, beverage, reading, scale, scale, `IF(ISNUMBER(${ownSd}),${ownSd},"")`));
  const said = (cell: string) => sheet.said(cell, "percent");
  const [least, most] = [`MIN(${known})`, `MAX(${known})`];
  const trust = firstOf([
    [`COUNT(${known})<2`, quoted("Read two known solutions, at least.")],
    [`NOT(ISNUMBER(${reading}))`, quoted("Type a reading that you want to know more of.")],
    [`NOT(ISNUMBER(${true_}))`, say`A reading of ${said(reading)} has no answer from known values of ${said(least)} to ${said(most)}: read known values around it.`],
    [`NOT(ISNUMBER(${low}))`, say`${said(reading)} is about ${said(true_)}; a third known solution tells how sure.`],
    [`AND(${low}<=${reading},${reading}<=${high})`, say`${said(reading)} may stand (${said(low)} to ${said(high)}).`],
  ], say`It reads ${said(`ABS(${reading}-${true_})`)} too ${`IF(${reading}>${true_},"high","low")`}: take ${said(true_)}.`);
  const half = sheet.amount(asked, "percent");
  const worth = firstOf([
    [`COUNT(${repeats})<3`, quoted("Read one cup three times or more to see what half a point of extraction is worth.")],
    [`NOT(ISNUMBER(${doubt}))`, quoted("Type dose, beverage and a reading to see what half a point of extraction is worth.")],
    [`${doubt}>=${half}`, say`Half a point of extraction may be the instrument alone (± ${said(doubt)}): take the mean of ${`FIXED(ROUNDUP((${doubt}/${half})^2,0)+1,0)`} readings of each shot.`],
  ], say`Half a point of extraction is more than the instruments’ own doubt (± ${said(doubt)}, 19 in 20).`);
  sheet.decision("K", trust, worth);

  sheet.put("A5", "group", `${typeHere}: known values`);
  sheet.unitRow("A6", ["percent", "percent"]);
  sheet.table("", "A7", 12, [["Reading", "readPercent"], ["Known", "readPercent"]]);
  sheet.put("D5", "group", `${typeHere}: one cup, again`);
  sheet.unitRow("E6", ["percent"]);
  sheet.table("Repeat", "D7", 20, [["Person", "operators"], ["Read again", "readPercent"]]);

  sheet.put("G5", "group", typeHere);
  const inputs = [["Reading", "reading", "readPercent", 9.4], ["Dose", "dose", "dose", 18], ["Beverage", "beverage", "beverage", 36], ["Scale, standard uncertainty", "scale", "doseError", 0.1]] as const;
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
