/** Recipe card: one page to hang beside the machine, and the same recipe in another basket. */
import { spelled } from "../sheet/spelling";
import type { Figures, ReadySheet } from "./ready-sheet";
import type { SheetBuilder } from "./sheet-builder";
import type { SheetDescription } from "./sheet-description";
import { typeHere } from "./words";

function describe(sheet: SheetBuilder): SheetDescription {
  const { prefix } = sheet;
  const mass = sheet.format("mass");
  const percent = sheet.format("percent");
  const name = (cell: string) => `${prefix}_${cell}`;

  sheet.put("A1", "title", "Recipe card");
  sheet.put("A2", "note", "Fill in the bordered cells and print this page.");
  sheet.put("A3", "group", `${typeHere}: what it is for`);
  const texts = [["Coffee", "coffee"], ["Machine and basket", "machine"], ["Grinder and setting", "grinder"], ["Valid from", "date"]] as const;
  texts.forEach(([label, key], index) => {
    sheet.put(`A${4 + index}`, "label", label);
    sheet.textInput(`B${4 + index}`, key);
  });

  sheet.put("A9", "group", `${typeHere}: the recipe`);
  sheet.put("D9", "group", "→ On the card");
  sheet.row("A10", "heading", ["", "Wanted", "Give or take", "From", "To", "Unit"]);
  const lines = [
    ["Dose", "dose", "dose", 18, 0.2, "mass"],
    ["Beverage", "beverage", "beverage", 36, 1, "mass"],
    ["Time", "time", "time", 27, 2, "time"],
    ["Temperature", "temperature", "temperature", 93, 1, "temperature"],
    ["Pressure, gauge", "pressure", "pressure", 9, 0.5, "pressure"],
  ] as const;
  lines.forEach(([label, key, kind, value, tolerance, measure], index) => {
    const row = 11 + index;
    const format = sheet.format(measure);
    sheet.put(`A${row}`, "label", label);
    sheet.input(`B${row}`, key, kind, value, { unitBeside: false });
    sheet.difference(`C${row}`, `${key}_tolerance`, measure, tolerance);
    sheet.result(`D${row}`, `${name(key)}-${name(`${key}_tolerance`)}`, format);
    sheet.result(`E${row}`, `${name(key)}+${name(`${key}_tolerance`)}`, format);
    sheet.unit(`F${row}`, measure);
  });
  sheet.put("A16", "label", "Extraction");
  sheet.put("B16", "unit", "from, to:");
  sheet.input("D16", "extraction_low", "extraction", 18, { unitBeside: false });
  sheet.input("E16", "extraction_high", "extraction", 22, { unitBeside: false });
  sheet.unit("F16", "percent");
  sheet.put("A17", "label", "Strength");
  sheet.put("B17", "unit", "follows:");
  const strength = (side: string) => `${spelled("STRENGTH")}(${name("dose")},${name("beverage")},${name(`extraction_${side}`)})`;
  sheet.result("D17", strength("low"), percent);
  sheet.result("E17", strength("high"), percent);
  sheet.unit("F17", "percent");
  sheet.put("A18", "label", "Ratio, 1 to");
  sheet.result("B18", `${spelled("RATIO")}(${name("dose")},${name("beverage")})`, "0.00");
  sheet.put("A19", "label", "Flow, mean");
  sheet.result("B19", `${spelled("FLOW")}(${name("beverage")},${name("time")})`, "0.00");
  sheet.put("C19", "unit", "g/s");

  sheet.put("A21", "group", `${typeHere}: the same in another basket`);
  sheet.row("A22", "heading", ["", "Wanted", "Give or take", "From", "To", "Unit"]);
  sheet.put("A23", "label", "Dose");
  sheet.input("B23", "otherdose", "dose", 20, { unitBeside: false });
  sheet.put("A24", "label", "Beverage");
  sheet.result("B24", `${spelled("BEVERAGE")}(${name("otherdose")},B18)`, mass);
  for (const [row, key] of [[23, "dose"], [24, "beverage"]] as const) {
    sheet.result(`C${row}`, `${name(`${key}_tolerance`)}*${name("otherdose")}/${name("dose")}`, mass);
    sheet.result(`D${row}`, `B${row}-C${row}`, mass);
    sheet.result(`E${row}`, `B${row}+C${row}`, mass);
    sheet.unit(`F${row}`, "mass");
  }
  sheet.sentence("A26", "verdict", `"In the other basket: "&${sheet.said("B23", "mass")}&" in, "&${sheet.said("B24", "mass")}&" out, in the same time, at the same temperature and pressure."`);
  sheet.lines("A27", "footnote", 95, [
    `Method: the ratio and the extraction are kept; strength = extraction × dose ÷ beverage (${spelled("SOURCE")}("STRENGTH")).`,
    "A deeper puck resists more: check the grind again. Ranges that stand here at first are common practice of the trade.",
  ]);
  sheet.put("A32", "group", "Take care");
  sheet.lines("A33", "note", 80, ["Hot water, steam and metal under pressure: keep to the limits of the machine’s and the basket’s maker, and to local rules."]);

  return sheet.described({
    name: "Recipe card",
    purpose: "One page to print for the bar: dose, cup, time, temperature and pressure with their limits, also for another basket.",
    widths: [24, 12, 13, 12, 12, 14],
    print: { area: "A1:F34", onePage: true },
  });
}

const example: Figures = {
  cells: { coffee: "House espresso (invented)", machine: "Two-group, 58 mm double basket", grinder: "Flat burr, 2.2", date: "2 March" },
};

export const recipeCard: ReadySheet = { describe, example };
