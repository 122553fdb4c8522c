/** Water: what a report means for taste, scale and corrosion, and what to do; scale, filter, blend and recipe in numbers. */
import { unitsOf, type MeasureName } from "../../shared/units";
import { chosenUnit } from "../sheet/unit-choice";
import { call, given, quoted, say } from "./formulas";
import type { Figures, ReadySheet } from "./ready-sheet";
import type { SheetBuilder } from "./sheet-builder";
import type { SheetDescription } from "./sheet-description";
import { typeHere, worksOut } from "./words";

/** Where the constants of the equation end, °C. */
const hottest = 90;
const daysOfMonth = 30;

/** Amounts that a report gives in one unit or another, and those that have one unit everywhere. */
const reported = [
  ["Total hardness", "hardness", "hardness", "total hardness"], ["Calcium hardness", "calciumHardness", "hardness", "calcium hardness"], ["Alkalinity", "alkalinity", "alkalinity", "alkalinity"],
] as const;
const others = [
  ["pH", "ph", "ph", "0.0", "pH"], ["Dissolved solids", "tds", "tds", "0", "dissolved solids"], ["Chloride", "chloride", "chloride", "0", "chloride"],
  ["Sulfate", "sulfate", "sulfate", "0", "sulfate"], ["Sodium", "sodium", "sodium", "0", "sodium"], ["Chlorine, total", "chlorine", "chlorine", "0.0", "total chlorine"],
] as const;

function describe(sheet: SheetBuilder): SheetDescription {
  const named = (name: string) => sheet.named(name);
  const [hardnessFormat, alkalinityFormat] = [sheet.format("hardness"), sheet.format("alkalinity")];
  const size = (measure: MeasureName) => chosenUnit(sheet.units, measure).size;
  /** What is typed in the workbook's unit, in the one that the functions of a report take. */
  const canonical = (cell: string, measure: MeasureName) => {
    const { size: of, zero = 0 } = chosenUnit(sheet.units, measure);
    return `IF(${cell}="","",(${cell}-${zero})*${of})`;
  };
  const inWorkbook = (formula: string, measure: MeasureName) => `IF(${formula}="","",${formula}/${size(measure)})`;
  sheet.columns([19, 9, 12, 1, 27, 9, 12, 1, 26, 10, 12, 12, 8]);
  const last = "M";
  sheet.put("A1", "title", "Water");

  // mg/L CaCO3, from the report's own unit.
  const plain = (name: string, measure: "hardness" | "alkalinity") => {
    const all = Object.entries(unitsOf(measure));
    const factor = `INDEX({${all.map(([, unit]) => unit.size).join(",")}},1,MATCH(${named(`${name}_unit`)},{${all.map(([unit]) => quoted(unit)).join(",")}},0))`;
    return `IF(${named(name)}="","",${named(name)}*${factor})`;
  };
  const amounts = reported.map(([label, name, measure]) => sheet.working(`${label}, of the report`, plain(name, measure)));
  const here = reported.map(([label, , measure], index) => sheet.working(`${label}, in this workbook`, inWorkbook(amounts[index]!, measure)));
  const [hardness, calciumHardness, alkalinity] = here as [string, string, string];
  const [ph, tds, chloride, sulfate, sodium, chlorine] = others.map(([, name]) => named(name)) as [string, string, string, string, string, string];
  const temperature = named("temperature");
  const items = [
    ...reported.map(([, , , item], index) => [item, given(amounts[index]!)] as const),
    ...others.map(([, name, , , item]) => [item, given(named(name))] as const),
    ["temperature", canonical(temperature, "temperature")],
    ["treated hardness", canonical(named("treatedhardness"), "hardness")], ["treated alkalinity", canonical(named("treatedalkalinity"), "alkalinity")],
    ["filter capacity", canonical(named("capacity"), "watervolume")], ["filter hardness", canonical(named("reference"), "hardness")], ["filter bypass", canonical(named("bypass"), "percent")],
  ] as const;
  const places = items.map((_, index) => index + 1).join(";");
  const limit = named("chloridelimit");
  const advice = call(
    "WATER.ADVICE", `CHOOSE({${places}},${items.map(([item]) => quoted(item)).join(",")})`, `CHOOSE({${places}},${items.map(([, amount]) => amount).join(",")})`,
    given(named("litres")), `CHOOSE({1,2,3},IF(${limit}="","","chloride"),"",${given(limit)})`,
  );
  const [, , sentence, next] = sheet.workingColumn(["Topic", "Rule", "Sentence", "Next"], advice, 4);
  const said = (list: string | undefined, topic: number) => `INDEX(${list},${topic + 1},1)`;
  const typed = `COUNT(${[...reported.map(([, name]) => named(name)), ph].join(",")})`;
  sheet.decision(last,
    `IF(${typed}=0,"Type the report: hardness, alkalinity and pH first.",${say`Taste: ${said(sentence, 1)}`})`,
    `IF(${typed}=0,"",${said(next, 1)})`,
    `IF(${typed}=0,"",${say`Scale: ${said(sentence, 2)} ${said(next, 2)}`})`,
    `IF(${typed}=0,"",${say`Corrosion: ${said(sentence, 3)} ${said(next, 3)}`})`,
  );

  sheet.put("A6", "group", `${typeHere}: the report, in its own units`);
  sheet.row("A7", "heading", ["", "Amount", "Unit"]);
  reported.forEach(([label, name, measure], index) => {
    const row = 8 + index;
    sheet.put(`A${row}`, "label", label);
    sheet.input(`B${row}`, name, "amount", undefined, { unitBeside: false, format: "0.0" });
    sheet.textInput(`C${row}`, `${name}_unit`, "ppm", Object.keys(unitsOf(measure)));
  });
  others.forEach(([label, name, kind, format], index) => {
    sheet.put(`A${11 + index}`, "label", label);
    sheet.input(`B${11 + index}`, name, kind, undefined, { format });
  });
  sheet.put("A17", "label", "Temperature");
  sheet.input("B17", "temperature", "temperature", undefined);

  sheet.put("E6", "group", `${typeHere}: your use of it`);
  sheet.row("E7", "heading", ["", "Amount", "Unit"]);
  const uses = [
    ["Water used a day", "litres", "litres", undefined], ["Maker’s limit of chloride", "chloridelimit", "chloride", undefined],
    ["Treated water: hardness", "treatedhardness", "hardness", 0], ["Treated water: alkalinity", "treatedalkalinity", "alkalinity", 0],
    ["Raw water in the blend", "share", "share", 40],
    ["Filter: water until spent", "capacity", "capacity", undefined], ["Filter: stated for hardness", "reference", "reference", undefined], ["Filter: bypass", "bypass", "bypass", 0],
    ["Recipe: hardness", "recipehardness", "hardness", 60], ["Recipe: alkalinity", "recipealkalinity", "alkalinity", 40],
    ["Recipe: volume", "volume", "watervolume", 10], ["Recipe: magnesium of it", "magnesiumShare", "magnesiumShare", 100],
  ] as const;
  uses.forEach(([label, name, kind, value], index) => {
    sheet.put(`E${8 + index}`, "label", label);
    sheet.input(`F${8 + index}`, name, kind, value, kind === "chloride" ? { format: "0" } : {});
  });

  const usual = (cell: string, value: string) => `IF(${cell}="",${value},${cell})`;
  const calcium = `IF(${calciumHardness}="",${hardness},${calciumHardness})`;
  const report = [ph, usual(temperature, sheet.amount(25, "temperature")), calcium, alkalinity, usual(tds, "0")];
  const isReady = `AND(ISNUMBER(${ph}),ISNUMBER(${alkalinity}),ISNUMBER(${calcium}))`;
  sheet.put("I6", "group", `${worksOut}: scale where it is heated`);
  sheet.row("I7", "heading", ["", "At", "Scale", "A month"]);
  sheet.unitRow("J8", ["temperature", "hardness", "mass"]);
  const hotter = [["At the tap", usual(temperature, sheet.amount(25, "temperature"))], ["Heated", sheet.amount(60, "temperature")], ["Heated", sheet.amount(hottest, "temperature")]] as const;
  hotter.forEach(([label, at], index) => {
    const row = 9 + index;
    sheet.put(`I${row}`, "label", label);
    sheet.result(`J${row}`, at, sheet.format("temperature"));
    sheet.result(`K${row}`, `IF(${isReady},IFERROR(INDEX(${call("WATER.SCALE", ...report, at)},1,2),""),"")`, hardnessFormat);
    sheet.result(`L${row}`, `IF(AND(ISNUMBER(K${row}),ISNUMBER(${named("litres")})),MAX(0,K${row})*${named("litres")}*${(size("hardness") * size("watervolume") * daysOfMonth) / 1000 / size("mass")},"")`, sheet.format("mass"));
  });
  sheet.cell("I12", { role: "note", formula: say`Known to ${sheet.said(sheet.amount(hottest, "temperature"), "temperature")}: brewing and boiler are hotter, and scale more.` });
  sheet.put("I13", "note", "Less than 0: the water dissolves as much.");

  sheet.put("I15", "group", `${worksOut}: filter, blend, recipe`);
  const life = call("WATER.FILTERLIFE", named("capacity"), named("reference"), hardness, named("bypass"));
  const results = [
    ["The filter lasts", `IF(COUNT(${named("capacity")},${named("reference")},${hardness})<3,"",IFERROR(${life},""))`, sheet.format("watervolume"), "watervolume"],
    ["which is", `IF(AND(ISNUMBER(J16),ISNUMBER(${named("litres")})),J16/${named("litres")},"")`, "0", { words: "days" }],
    ["Blend: hardness", `IF(ISNUMBER(${hardness}),${call("WATER.BLEND", hardness, named("treatedhardness"), named("share"))},"")`, hardnessFormat, "hardness"],
    ["Blend: alkalinity", `IF(ISNUMBER(${alkalinity}),${call("WATER.BLEND", alkalinity, named("treatedalkalinity"), named("share"))},"")`, alkalinityFormat, "alkalinity"],
  ] as const;
  results.forEach(([label, formula, format, unit], index) => {
    sheet.put(`I${16 + index}`, "label", label);
    sheet.result(`J${16 + index}`, formula, format);
    sheet.unit(`K${16 + index}`, unit);
  });
  sheet.spill("I20", call("WATER.RECIPE", named("recipehardness"), named("recipealkalinity"), named("volume"), named("magnesiumShare")), 4, [undefined, "0.000"], true);

  sheet.put("A22", "group", `${worksOut}: against published ranges for brewing water`);
  sheet.row("A23", "text heading", ["Item", "", ""]);
  sheet.row("E23", "text heading", ["Stands"]);
  sheet.row("F23", "heading", ["From", "To"]);
  const check = sheet.workingColumn(
    ["Item", "Amount", "Low", "High", "Verdict", "Source"],
    `IF(COUNT(${hardness},${alkalinity},${ph},${tds})<4,"",${call("WATER.CHECK", hardness, alkalinity, ph, tds, given(sodium), given(chlorine), given(chloride))})`, 8,
  );
  const cell = (column: number, row: number) => `INDEX(${check[column]},${row + 2},1)`;
  for (let row = 0; row < 7; row++) {
    const at = 24 + row;
    const empty = row === 0 ? quoted("Needs dissolved solids as well.") : '""';
    sheet.across(`A${at}`, "C", "result", `IF(LEN(${cell(0, row)})>1,SUBSTITUTE(${cell(0, row)},"Brewing water: ",""),${empty})`);
    sheet.result(`E${at}`, `${cell(4, row)}&""`);
    sheet.result(`F${at}`, given(cell(2, row)), "0.0");
    sheet.result(`G${at}`, given(cell(3, row)), "0.0");
  }

  sheet.put("I25", "group", `${worksOut}: indices`);
  const five = [ph, temperature, calciumHardness, alkalinity, tds];
  const indices = [
    ["Langelier (LSI)", `IF(COUNT(${five.join(",")})<5,"",${call("WATER.LANGELIER", ...five)})`],
    ["Ryznar (RSI)", `IF(COUNT(${five.join(",")})<5,"",${call("WATER.RYZNAR", ...five)})`],
    ["Larson-Skold", `IF(COUNT(${chloride},${sulfate},${alkalinity})<3,"",${call("WATER.LARSONSKOLD", chloride, sulfate, alkalinity)})`],
  ] as const;
  indices.forEach(([label, formula], index) => {
    sheet.put(`I${26 + index}`, "label", label);
    sheet.result(`J${26 + index}`, formula, "0.00");
  });
  sheet.put("I29", "label", "Carbonate, other");
  sheet.spill("J29", `IF(COUNT(${hardness},${alkalinity})<2,"",${call("WATER.CARBONATE", hardness, alkalinity)})`, 1, [hardnessFormat, hardnessFormat]);
  sheet.unit("L29", "hardness");

  sheet.lines("A32", "footnote", 150, [
    `Method: ranges of a trade body, and the blend that meets them; precipitation potential, closed; Larson-Skold above 0.8. ${call("SOURCE", quoted("WATER.ADVICE"))}, …("WATER.SCALE"), …("WATER.CHECK"), …("WATER.FILTERLIFE"), …("WATER.RECIPE") have the sources.`,
    "An index is a tendency, not a rate, and does not replace the maker’s limits. The ranges are in mg/L CaCO3 and mg/L, whatever the workbook’s units; nothing here is about health.",
    "Take care: food-grade salts, weighed with a scale good to 0.01 g; dose no plumbed line; not for people on a mineral-restricted diet without advice.",
    "Boilers, scale and descaling acids: the machine maker’s limits and local rules come first; let a licensed person do the work.",
  ]);
  return sheet.described({
    name: "Water",
    purpose: "Read a water report in any unit, see what it means for taste, scale and corrosion, and plan a blend or a recipe in grams.",
    frozenRows: 5,
    print: { area: `A1:${last}39`, landscape: true, onePage: true },
  });
}

const example: Figures = {
  cells: {
    hardness: 12, hardness_unit: "dH", calciumHardness: 9.5, calciumHardness_unit: "dH", alkalinity: 190, alkalinity_unit: "HCO3", ph: 7.6, temperature: 25, tds: 310,
    chloride: 28, sulfate: 35, sodium: 14, chlorine: 0.1, litres: 30, chloridelimit: 50, capacity: 2000, reference: 178, bypass: 20,
  },
};

export const water: ReadySheet = { describe, example };
