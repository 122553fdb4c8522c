/** Recipe card: one page to hang beside the machine, and the same recipe in another basket. */
import { spelled } from "../sheet/spelling";
import type { SheetBuilder } from "./sheet-builder";
import type { SheetDescription } from "./sheet-description";
import { typeHere } from "./words";

export function recipeCard(s: SheetBuilder): SheetDescription {
  const { prefix } = s;
  const mass = s.format("mass");
  const percent = s.format("percent");
  const name = (cell: string) => `${prefix}_${cell}`;

  s.put("A1", "title", "Recipe card");
  s.put("A2", "note", "Fill in the bordered cells and print this page.");
  s.put("A3", "group", `${typeHere}: what it is for`);
  const texts = [["Coffee", "coffee"], ["Machine and basket", "machine"], ["Grinder and setting", "grinder"], ["Valid from", "date"]] as const;
  texts.forEach(([label, key], index) => {
    s.put(`A${4 + index}`, "label", label);
    s.textInput(`B${4 + index}`, key);
  });

  s.put("A9", "group", `${typeHere}: the recipe`);
  s.put("D9", "group", "→ On the card");
  s.row("A10", "heading", ["", "Wanted", "Give or take", "From", "To", "Unit"]);
  const lines = [
    ["Dose", "dose", "dose", 18, 0.2, "mass"],
    ["Beverage", "beverage", "beverage", 36, 1, "mass"],
    ["Time", "time", "time", 27, 2, "time"],
    ["Temperature", "temperature", "temperature", 93, 1, "temperature"],
    ["Pressure, gauge", "pressure", "pressure", 9, 0.5, "pressure"],
  ] as const;
  lines.forEach(([label, key, kind, value, tolerance, measure], index) => {
    const row = 11 + index;
    const format = s.format(measure);
    s.put(`A${row}`, "label", label);
    s.input(`B${row}`, key, kind, value, { unitBeside: false });
    s.difference(`C${row}`, `${key}_tolerance`, measure, tolerance);
    s.result(`D${row}`, `${name(key)}-${name(`${key}_tolerance`)}`, format);
    s.result(`E${row}`, `${name(key)}+${name(`${key}_tolerance`)}`, format);
    s.unit(`F${row}`, measure);
  });
  s.put("A16", "label", "Extraction");
  s.put("B16", "unit", "from, to:");
  s.input("D16", "extraction_low", "extraction", 18, { unitBeside: false });
  s.input("E16", "extraction_high", "extraction", 22, { unitBeside: false });
  s.unit("F16", "percent");
  s.put("A17", "label", "Strength");
  s.put("B17", "unit", "follows:");
  const strength = (side: string) => `${spelled("STRENGTH")}(${name("dose")},${name("beverage")},${name(`extraction_${side}`)})`;
  s.result("D17", strength("low"), percent);
  s.result("E17", strength("high"), percent);
  s.unit("F17", "percent");
  s.put("A18", "label", "Ratio, 1 to");
  s.result("B18", `${spelled("RATIO")}(${name("dose")},${name("beverage")})`, "0.00");
  s.put("A19", "label", "Flow, mean");
  s.result("B19", `${spelled("FLOW")}(${name("beverage")},${name("time")})`, "0.00");
  s.put("C19", "unit", "g/s");

  s.put("A21", "group", `${typeHere}: the same in another basket`);
  s.row("A22", "heading", ["", "Wanted", "Give or take", "From", "To", "Unit"]);
  s.put("A23", "label", "Dose");
  s.input("B23", "otherdose", "dose", 20, { unitBeside: false });
  s.put("A24", "label", "Beverage");
  s.result("B24", `${spelled("BEVERAGE")}(${name("otherdose")},B18)`, mass);
  for (const [row, key] of [[23, "dose"], [24, "beverage"]] as const) {
    s.result(`C${row}`, `${name(`${key}_tolerance`)}*${name("otherdose")}/${name("dose")}`, mass);
    s.result(`D${row}`, `B${row}-C${row}`, mass);
    s.result(`E${row}`, `B${row}+C${row}`, mass);
    s.unit(`F${row}`, "mass");
  }
  s.sentence("A26", "verdict", `"In the other basket: "&${s.said("B23", "mass")}&" in, "&${s.said("B24", "mass")}&" out, in the same time, at the same temperature and pressure."`);
  s.lines("A27", "footnote", 95, [
    `Method: the ratio and the extraction are kept; strength = extraction × dose ÷ beverage (${spelled("SOURCE")}("STRENGTH")).`,
    "A deeper puck resists more: check the grind again. Ranges that stand here at first are common practice of the trade.",
  ]);
  s.put("A32", "group", "Take care");
  s.lines("A33", "note", 80, ["Hot water, steam and metal under pressure: keep to the limits of the machine’s and the basket’s maker, and to local rules."]);

  return s.described({
    name: "Recipe card",
    purpose: "One page to print for the bar: dose, cup, time, temperature and pressure with their limits, also for another basket.",
    widths: [24, 12, 13, 12, 12, 14],
    print: { area: "A1:F34", onePage: true },
  });
}
