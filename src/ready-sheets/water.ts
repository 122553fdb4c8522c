/** Water: a report in any unit, what it means, a blend, a recipe and their cautions. */
import { spelled } from "../sheet/spelling";
import { unitsOf } from "../../shared/units";
import type { Figures, ReadySheet } from "./ready-sheet";
import type { SheetBuilder } from "./sheet-builder";
import type { SheetDescription } from "./sheet-description";
import { typeHere, worksOut } from "./words";


function describe(sheet: SheetBuilder): SheetDescription {
  const { prefix } = sheet;
  const name = (cell: string) => `${prefix}_${cell}`;
  const hardness = sheet.format("hardness");
  const alkalinity = sheet.format("alkalinity");

  sheet.put("A1", "title", "Water");
  sheet.put("A2", "note", "Type what the report says, in the report’s own unit. Leave blank what it does not say.");
  sheet.put("A3", "group", `${typeHere}: the report`);
  sheet.put("D3", "group", "→ In this workbook");
  sheet.row("A5", "heading", ["", "Report", "Unit", "Value", "Unit"]);
  const [hardnessUnits, alkalinityUnits] = [unitsOf("hardness"), unitsOf("alkalinity")].map((of) => Object.keys(of)) as [string[], string[]];
  const both = { ...unitsOf("alkalinity"), ...unitsOf("hardness") };
  const last = 5 + Object.keys(both).length;
  /** mg/L CaCO3 in a unit, by its name or its symbol: mmol/L counts acid where it is alkalinity, so each has factors of its own. */
  const factors = { hardness: `$J$6:$J$${last}`, alkalinity: `$M$6:$M$${last}` };
  const factor = (kind: keyof typeof factors, unit: string, names: "H" | "I") => `INDEX(${factors[kind]},MATCH(${unit},$${names}$6:$${names}$${last},0))`;
  const reported = [["Total hardness", "hardness", hardnessUnits], ["Calcium hardness", "calciumHardness", hardnessUnits], ["Alkalinity", "alkalinity", alkalinityUnits]] as const;
  reported.forEach(([label, key, choices], index) => {
    const row = 6 + index;
    sheet.put(`A${row}`, "label", label);
    sheet.input(`B${row}`, key, "amount", undefined, { unitBeside: false, format: "0.0" });
    sheet.textInput(`C${row}`, `${key}_unit`, "ppm", choices);
    const kind = key === "alkalinity" ? "alkalinity" : "hardness";
    sheet.result(`D${row}`, `IF(ISNUMBER(B${row}),B${row}*${factor(kind, `C${row}`, "H")}/${factor(kind, `E${row}`, "I")},"")`, sheet.format(kind));
    sheet.unit(`E${row}`, kind);
  });
  const others = [
    ["pH", "ph", "ph", "0.0"],
    ["Temperature", "temperature", "temperature", undefined],
    ["Dissolved solids", "tds", "tds", "0"],
    ["Chloride", "chloride", "chloride", "0"],
    ["Sulfate", "sulfate", "sulfate", "0"],
    ["Sodium", "sodium", "sodium", "0"],
    ["Chlorine, total", "chlorine", "chlorine", "0.0"],
  ] as const;
  others.forEach(([label, key, kind, format], index) => {
    sheet.put(`A${9 + index}`, "label", label);
    sheet.input(`B${9 + index}`, key, kind, undefined, format ? { format } : {});
  });

  sheet.put("H3", "group", "→ The same in other units");
  sheet.row("H5", "heading", ["Choose as", "Unit", "mg/L CaCO3", "Hardness", "Alkalinity", "mg/L CaCO3"]);
  Object.entries(both).forEach(([unit, { symbol }], index) => {
    sheet.put(`H${6 + index}`, "label", unit);
    sheet.put(`I${6 + index}`, "unit", symbol);
  });
  const rows = Object.keys(both).length;
  const names = `H6:H${last}`;
  sheet.spill("J6", `IFERROR(${spelled("WATER.HARDNESS")}(1,${names},"ppm"),"")`, rows, ["0.00"]);
  sheet.spill("K6", `IF(ISNUMBER(B6),IFERROR(${spelled("WATER.HARDNESS")}(B6,C6,${names}),""),"")`, rows, ["0.00"]);
  sheet.spill("L6", `IF(ISNUMBER(B8),IFERROR(${spelled("WATER.ALKALINITY")}(B8,C8,${names}),""),"")`, rows, ["0.00"]);
  sheet.spill("M6", `IFERROR(${spelled("WATER.ALKALINITY")}(1,${names},"ppm"),"")`, rows, ["0.00"]);

  sheet.put("A17", "group", `${worksOut}: scale and corrosion`);
  sheet.row("A18", "heading", ["", "Index", ""]);
  sheet.put("D18", "text heading", "Hint");
  const langelier = "B9,B10,D7,D8,B11";
  sheet.put("A19", "label", "Langelier (LSI)");
  sheet.result("B19", `IF(COUNT(${langelier})<5,"",${spelled("WATER.LANGELIER")}(${langelier}))`, "0.00");
  sheet.sentence("D19", "note", 'IF(ISNUMBER(B19),IF(B19>0.3,"Tends to scale; hotter is worse.",IF(B19<-0.3,"Tends to dissolve scale: look to corrosion.","Near balance at this temperature.")),"Needs pH, temperature, both hardnesses, alkalinity, solids.")');
  sheet.put("A20", "label", "Ryznar (RSI)");
  sheet.result("B20", `IF(COUNT(${langelier})<5,"",${spelled("WATER.RYZNAR")}(${langelier}))`, "0.00");
  sheet.put("A21", "label", "Larson-Skold");
  sheet.result("B21", `IF(COUNT(B12,B13,D8)<3,"",${spelled("WATER.LARSONSKOLD")}(B12,B13,D8))`, "0.00");
  sheet.sentence("D21", "note", 'IF(ISNUMBER(B21),IF(B21>0.8,"Much chloride and sulfate: look to corrosion.","Little chloride and sulfate beside the alkalinity."),"Needs chloride, sulfate and alkalinity.")');
  sheet.put("A22", "label", "Hardness: carbonate, other");
  sheet.spill("B22", `IF(COUNT(D6,D8)<2,"",${spelled("WATER.CARBONATE")}(D6,D8))`, 1, [hardness, hardness]);
  sheet.unit("D22", "hardness");

  sheet.put("A25", "group", `${worksOut}: against published ranges for brewing water`);
  sheet.spill("A26", `IF(COUNT(D6,D8,B9,B11)<4,"Type hardness, alkalinity, pH and dissolved solids.",${spelled("WATER.CHECK")}(D6,D8,B9,B11,B14,B15))`, 7, [undefined, "0.0", "0.0", "0.0", undefined, undefined], true);
  sheet.lines("A34", "footnote", 130, [
    `Methods: ${spelled("SOURCE")}("WATER.CHECK"), …("WATER.LANGELIER"), …("WATER.RYZNAR"), …("WATER.LARSONSKOLD"), …("WATER.BLEND"), …("WATER.RECIPE").`,
    "An index is a tendency, not a rate, and does not replace the maker’s limits. Amounts and ranges of the check are in mg/L CaCO3 and mg/L, whatever the workbook’s units.",
  ]);
  sheet.put("A38", "group", "Take care");
  sheet.put("A39", "note", "Use food-grade salts and weigh with a scale good to 0.01 g. Not for people on a mineral-restricted diet without advice.");
  sheet.put("A40", "note", "Boilers, scale and descaling acids: the machine maker’s limits and local rules come first; let a licensed person do the work.");

  sheet.put("H16", "group", `${typeHere}: blend of raw and treated water`);
  sheet.row("H17", "heading", ["", "Treated", "Wanted", "Blend", "Unit"]);
  sheet.put("H18", "label", "Hardness");
  sheet.input("I18", "treatedhardness", "hardness", 10, { unitBeside: false });
  sheet.input("J18", "wantedhardness", "hardness", 60, { unitBeside: false });
  sheet.result("K18", `IF(ISNUMBER(D6),${spelled("WATER.BLEND")}(D6,${name("treatedhardness")},${name("share")}),"")`, hardness);
  sheet.unit("L18", "hardness");
  sheet.put("H19", "label", "Alkalinity");
  sheet.input("I19", "treatedalkalinity", "alkalinity", 10, { unitBeside: false });
  sheet.result("K19", `IF(ISNUMBER(D8),${spelled("WATER.BLEND")}(D8,${name("treatedalkalinity")},${name("share")}),"")`, alkalinity);
  sheet.unit("L19", "alkalinity");
  sheet.put("H20", "label", "Raw water, to reach it");
  sheet.result("J20", `IF(ISNUMBER(D6),${spelled("WATER.BLENDSHARE")}(D6,${name("treatedhardness")},${name("wantedhardness")}),"")`, sheet.format("percent"));
  sheet.unit("K20", "percent");
  sheet.put("H21", "label", "Raw water, as set");
  sheet.input("J21", "share", "share", 40);
  sheet.sentence("H22", "verdict", `IF(ISNUMBER(J20),"Set the bypass so that "&${sheet.said("J20", "percent")}&" of the water is raw, and check the blend at the tap.","")`);

  sheet.put("N3", "group", `${typeHere}: recipe from pure water`);
  sheet.row("N5", "heading", ["", "Wanted", "Unit"]);
  sheet.put("N6", "label", "Hardness");
  sheet.input("O6", "recipehardness", "hardness", 60);
  sheet.put("N7", "label", "Alkalinity");
  sheet.input("O7", "recipealkalinity", "alkalinity", 40);
  sheet.put("N8", "label", "Volume");
  sheet.input("O8", "volume", "watervolume", 10);
  sheet.put("N9", "label", "Magnesium in the hardness");
  sheet.input("O9", "magnesiumShare", "magnesiumShare", 100);
  sheet.put("N11", "group", "→ Weigh in");
  sheet.spill("N12", `${spelled("WATER.RECIPE")}(${name("recipehardness")},${name("recipealkalinity")},${name("volume")},${name("magnesiumShare")})`, 4, [undefined, "0.000"], true);

  return sheet.described({
    name: "Water",
    purpose: "Read a water report in any unit, see what it means for taste, scale and corrosion, and plan a blend or a recipe in grams.",
    widths: [42, 11, 12, 11, 16, 22, 2, 24, 14, 14, 13, 15, 12, 28, 12, 14],
    frozenRows: 2,
    print: { area: "A1:P40", landscape: true, onePage: true },
  });
}

const example: Figures = {
  cells: { hardness: 12, hardness_unit: "dH", calciumHardness: 9.5, calciumhardness_unit: "dH", alkalinity: 190, alkalinity_unit: "HCO3", ph: 7.6, temperature: 25, tds: 310, chloride: 28, sulfate: 35, sodium: 14, chlorine: 0.1 },
};

export const water: ReadySheet = { describe, example };
