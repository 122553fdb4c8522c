/** Recipe card: one page to hang beside the machine, the same recipe in another basket, and what a cup of it costs. */
import { call, quoted } from "./formulas";
import type { Figures, ReadySheet } from "./ready-sheet";
import type { SheetBuilder } from "./sheet-builder";
import type { SheetDescription } from "./sheet-description";
import { typeHere, worksOut } from "./words";

function describe(sheet: SheetBuilder): SheetDescription {
  const mass = sheet.format("mass");
  const percent = sheet.format("percent");
  const name = (cell: string) => sheet.named(cell);
  const [dose, beverage, time, otherDose] = ["dose", "beverage", "time", "otherdose"].map(name) as [string, string, string, string];
  sheet.columns([22, 11, 12, 11, 11, 11, 2, 24, 11, 11, 9]);

  sheet.put("A1", "title", "Recipe card");

  sheet.put("A5", "group", `${typeHere}: the recipe`);
  sheet.put("D5", "group", "→ On the card");
  sheet.row("A6", "heading", ["", "Wanted", "Give or take", "From", "To", "Unit"]);
  const lines = [
    ["Dose", "dose", "dose", 18, 0.2, "mass"],
    ["Beverage", "beverage", "beverage", 36, 1, "mass"],
    ["Time", "time", "time", 27, 2, "time"],
    ["Temperature", "temperature", "temperature", 93, 1, "temperature"],
    ["Pressure, gauge", "pressure", "pressure", 9, 0.5, "pressure"],
  ] as const;
  lines.forEach(([label, key, kind, value, tolerance, measure], index) => {
    const row = 7 + index;
    const format = sheet.format(measure);
    sheet.put(`A${row}`, "label", label);
    sheet.input(`B${row}`, key, kind, value, { unitBeside: false });
    sheet.difference(`C${row}`, `${key}_tolerance`, measure, tolerance);
    sheet.result(`D${row}`, `IF(ISNUMBER(${name(key)}),${name(key)}-${name(`${key}_tolerance`)},"")`, format);
    sheet.result(`E${row}`, `IF(ISNUMBER(${name(key)}),${name(key)}+${name(`${key}_tolerance`)},"")`, format);
    sheet.unit(`F${row}`, measure);
  });
  const isRecipe = `COUNT(${dose},${beverage})=2`;
  const whenRecipe = (formula: string) => `IF(${isRecipe},${formula},"")`;
  sheet.put("A12", "label", "Extraction");
  sheet.put("B12", "unit", "from, to:");
  sheet.input("D12", "extraction_low", "extraction", 18, { unitBeside: false });
  sheet.input("E12", "extraction_high", "extraction", 22, { unitBeside: false });
  sheet.unit("F12", "percent");
  sheet.put("A13", "label", "Strength");
  sheet.put("B13", "unit", "follows:");
  const strength = (side: string) => whenRecipe(call("STRENGTH", dose, beverage, name(`extraction_${side}`)));
  sheet.result("D13", strength("low"), percent);
  sheet.result("E13", strength("high"), percent);
  sheet.unit("F13", "percent");
  sheet.put("A14", "label", "Ratio, 1 to");
  sheet.result("B14", whenRecipe(call("RATIO", dose, beverage)), "0.00");
  sheet.put("A15", "label", "Flow, mean");
  sheet.result("B15", `IF(COUNT(${beverage},${time})=2,${call("FLOW", beverage, time)},"")`, "0.00");
  sheet.put("C15", "unit", "g/s");

  sheet.put("H5", "group", `${typeHere}: another basket`);
  sheet.put("H6", "label", "Its dose");
  sheet.input("I6", "otherdose", "dose", undefined);
  sheet.put("H7", "label", "This basket, inside");
  sheet.input("I7", "diameter", "diameter", undefined, { format: "0.0" });
  sheet.put("H8", "label", "Other basket, inside");
  sheet.input("I8", "otherdiameter", "diameter", undefined, { format: "0.0" });
  sheet.put("H10", "group", `${worksOut}: in the other basket`);
  sheet.row("H11", "heading", ["", "From", "To", "Unit"]);
  const isOther = `AND(${isRecipe},ISNUMBER(${otherDose}))`;
  const otherBeverage = sheet.working("Beverage in the other basket", `IF(${isOther},${call("BEVERAGE", otherDose, "B14")},"")`, mass);
  for (const [row, label, key, wanted] of [[12, "Dose", "dose", otherDose], [13, "Beverage", "beverage", otherBeverage]] as const) {
    const reach = `${name(`${key}_tolerance`)}*${otherDose}/${dose}`;
    sheet.put(`H${row}`, "label", label);
    sheet.result(`I${row}`, `IF(${isOther},${wanted}-${reach},"")`, mass);
    sheet.result(`J${row}`, `IF(${isOther},${wanted}+${reach},"")`, mass);
    sheet.unit(`K${row}`, "mass");
  }
  sheet.put("H14", "group", `${typeHere}: shots in the other basket`);
  sheet.unitRow("H15", [{ words: "grinder" }, "time"]);
  sheet.table("Other", "H16", 6, [["Setting", "settings", { format: "0.0##" }], ["Time", "time"]]);

  sheet.put("A16", "group", `${typeHere}: what it costs`);
  sheet.put("A17", "label", "Coffee in the bag");
  sheet.input("B17", "bag", "bag", undefined);
  sheet.put("A18", "label", "Price of the bag");
  sheet.input("B18", "price", "price", undefined, { format: "0.00", unitBeside: false });
  sheet.textInput("C18", "currency");
  sheet.put("A19", "label", "Lost to dialling in");
  sheet.input("B19", "lost", "wasted", undefined);
  sheet.put("A20", "group", `${worksOut}`);
  sheet.put("A21", "label", "Cups from a bag");
  const isBag = `AND(ISNUMBER(${dose}),ISNUMBER(${name("bag")}))`;
  const kept = `${name("bag")}*(1-N(${name("lost")})/${sheet.amount(100, "percent")})`;
  sheet.result("B21", `IF(${isBag},INT(${kept}/${dose}+0.000001),"")`, "0");
  sheet.put("A22", "label", "Coffee for a cup");
  sheet.result("B22", `IF(AND(${isBag},ISNUMBER(${name("price")})),${name("price")}*${dose}/(${kept}),"")`, "0.00");
  sheet.cell("C22", { role: "unit", formula: `${name("currency")}&""` });

  sheet.put("D15", "group", `${typeHere}: what it is for`);
  const texts = [["Coffee", "coffee"], ["Machine", "machine"], ["Grinder", "grinder"], ["Valid from", "date"]] as const;
  texts.forEach(([label, key], index) => {
    sheet.put(`D${16 + index}`, "label", label);
    sheet.textInput(`E${16 + index}`, key, "", undefined, "G");
  });

  const [settings, times] = ["Setting", "Time"].map((heading) => sheet.column(heading, "Other")) as [string, string];
  const given = [name("diameter"), name("otherdiameter"), settings, times, name("bag"), name("price"), name("currency"), name("lost")];
  const advice = call("RECIPE.ADVICE", dose, beverage, time, name("time_tolerance"), otherDose, ...given);
  const [, , sentence] = sheet.workingColumn(["Topic", "Rule", "Sentence"], advice, 4) as [string, string, string];
  sheet.decision("K", ...[2, 3, 4].map((row) => `INDEX(${sentence},${row},1)&""`));

  sheet.lines("A24", "footnote", 120, [
    `Method: the ratio and the extraction are kept; strength = extraction × dose ÷ beverage (${call("SOURCE", quoted("STRENGTH"))}). Grind from shots of that basket alone (${call("SOURCE", quoted("GRIND.ADVICE"))}).`,
    "A deeper puck resists the water more (Darcy’s law): a direction to begin with, no more. Ranges that stand here at first are common practice of the trade.",
    "Take care: hot water, steam and metal under pressure. Keep to the limits of the machine’s and the basket’s maker, and to local rules.",
  ]);
  return sheet.described({
    name: "Recipe card",
    purpose: "One page to print for the bar: dose, cup, time, temperature and pressure with their limits, also for another basket, and what a cup costs.",
    frozenRows: 4,
    print: { area: "A1:K28", landscape: true, onePage: true },
  });
}

const example: Figures = {
  cells: {
    coffee: "House (invented)", machine: "Two groups, 58 mm", grinder: "Flat burr, 2.2", date: "2 March",
    otherdose: 20, diameter: 58, otherdiameter: 58, bag: 1000, price: 22, currency: "euros", lost: 4,
  },
  columns: { Other: { Setting: [2.2, 2.4, 2.3, 2.5], Time: [31.5, 26, 28.5, 24] } },
};

export const recipeCard: ReadySheet = { describe, example };
