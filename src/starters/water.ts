/** Water: a report in any unit, what it means, a blend, a recipe and their cautions. */
import { unitsOf } from "../../shared/units";
import type { UnitChoice } from "../sheet/unit-choice";
import { SheetBuilder, type Figures } from "./sheet-builder";
import type { SheetDescription } from "./sheet-description";
import { typeHere, worksOut } from "./words";

const hardnessUnits = ["ppm", "dH", "fH", "e", "gpg", "mmol/L", "meq/L"];
const alkalinityUnits = [...hardnessUnits, "HCO3"];

export function water(units: UnitChoice, prefix: string, figures: Figures): SheetDescription {
  const s = new SheetBuilder(units, prefix, figures);
  const name = (cell: string) => `${prefix}_${cell}`;
  const hardness = s.format("hardness");
  const alkalinity = s.format("alkalinity");

  s.put("A1", "title", "Water");
  s.put("A2", "note", "Type what the report says, in the report’s own unit. Leave blank what it does not say.");
  s.put("A3", "group", `${typeHere}: the report`);
  s.put("D3", "group", "→ In this workbook");
  s.row("A5", "heading", ["", "Report", "Unit", "Value", "Unit"]);
  const factor = (unit: string, names: string) => `INDEX($J$6:$J$13,MATCH(${unit},${names},0))`;
  const reported = [["Total hardness", "hardness", hardnessUnits], ["Calcium hardness", "calciumhardness", hardnessUnits], ["Alkalinity", "alkalinity", alkalinityUnits]] as const;
  reported.forEach(([label, key, choices], index) => {
    const row = 6 + index;
    s.put(`A${row}`, "label", label);
    s.input(`B${row}`, key, "amount", undefined, { unitBeside: false, format: "0.0" });
    s.textInput(`C${row}`, `${key}_unit`, "ppm", choices);
    s.result(`D${row}`, `IF(ISNUMBER(B${row}),B${row}*${factor(`C${row}`, "$H$6:$H$13")}/${factor(`E${row}`, "$I$6:$I$13")},"")`, key === "alkalinity" ? alkalinity : hardness);
    s.unit(`E${row}`, key === "alkalinity" ? "alkalinity" : "hardness");
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
    s.put(`A${9 + index}`, "label", label);
    s.input(`B${9 + index}`, key, kind, undefined, format ? { format } : {});
  });

  s.put("H3", "group", "→ The same in other units");
  s.row("H5", "heading", ["Choose as", "Unit", "mg/L CaCO3 each", "Hardness", "Alkalinity"]);
  alkalinityUnits.forEach((unit, index) => {
    s.put(`H${6 + index}`, "label", unit);
    s.put(`I${6 + index}`, "unit", unitsOf("alkalinity")[unit]!.symbol);
  });
  s.spill("J6", 'ESPRESSO.WATER.ALKALINITY(1,H6:H13,"ppm")', 8, ["0.00"]);
  s.spill("K6", `IF(ISNUMBER(B6),B6*${factor("C6", "$H$6:$H$13")}/J6:J12,"")`, 7, ["0.00"]);
  s.spill("L6", `IF(ISNUMBER(B8),B8*${factor("C8", "$H$6:$H$13")}/J6:J13,"")`, 8, ["0.00"]);

  s.put("A17", "group", `${worksOut}: against published ranges for brewing water`);
  s.spill("A18", 'IF(COUNT(D6,D8,B9,B11)<4,"Type hardness, alkalinity, pH and dissolved solids.",ESPRESSO.WATER.CHECK(D6,D8,B9,B11,B14,B15))', 7, [undefined, "0.0", "0.0", "0.0", undefined, undefined], true);

  s.put("A27", "group", `${worksOut}: scale and corrosion`);
  s.row("A28", "heading", ["", "Index", "", "What it hints at"]);
  const langelier = "B9,B10,D7,D8,B11";
  s.put("A29", "label", "Langelier (LSI)");
  s.result("B29", `IF(COUNT(${langelier})<5,"",ESPRESSO.WATER.LANGELIER(${langelier}))`, "0.00");
  s.sentence("D29", "note", 'IF(ISNUMBER(B29),IF(B29>0.3,"Tends to scale at this temperature; hotter is worse.",IF(B29<-0.3,"Tends to dissolve scale; look to corrosion.","Near balance at this temperature.")),"Needs pH, temperature, calcium hardness, alkalinity and dissolved solids.")');
  s.put("A30", "label", "Ryznar (RSI)");
  s.result("B30", `IF(COUNT(${langelier})<5,"",ESPRESSO.WATER.RYZNAR(${langelier}))`, "0.00");
  s.put("A31", "label", "Larson-Skold");
  s.result("B31", 'IF(COUNT(B12,B13,D8)<3,"",ESPRESSO.WATER.LARSONSKOLD(B12,B13,D8))', "0.00");
  s.sentence("D31", "note", 'IF(ISNUMBER(B31),IF(B31>0.8,"Chloride and sulfate are high beside the alkalinity: look to corrosion.","Chloride and sulfate are low beside the alkalinity."),"Needs chloride, sulfate and alkalinity.")');
  s.put("A32", "label", "Carbonate hardness, other");
  s.spill("B32", 'IF(COUNT(D6,D8)<2,"",ESPRESSO.WATER.CARBONATE(D6,D8))', 1, [hardness, hardness]);
  s.unit("D32", "hardness");
  s.lines("A33", "footnote", 100, [
    "Methods: ESPRESSO.SOURCE(\"WATER.CHECK\"), …(\"WATER.LANGELIER\"), …(\"WATER.RYZNAR\"), …(\"WATER.LARSONSKOLD\"). An index is a tendency, not a rate, and does not replace the maker’s limits.",
  ]);

  s.put("H16", "group", `${typeHere}: blend of raw and treated water`);
  s.row("H17", "heading", ["", "Treated", "Wanted", "Blend gives", "Unit"]);
  s.put("H18", "label", "Hardness");
  s.input("I18", "treatedhardness", "hardness", 10, { unitBeside: false });
  s.input("J18", "wantedhardness", "hardness", 60, { unitBeside: false });
  s.result("K18", `IF(ISNUMBER(D6),ESPRESSO.WATER.BLEND(D6,${name("treatedhardness")},${name("share")}),"")`, hardness);
  s.unit("L18", "hardness");
  s.put("H19", "label", "Alkalinity");
  s.input("I19", "treatedalkalinity", "alkalinity", 10, { unitBeside: false });
  s.result("K19", `IF(ISNUMBER(D8),ESPRESSO.WATER.BLEND(D8,${name("treatedalkalinity")},${name("share")}),"")`, alkalinity);
  s.unit("L19", "alkalinity");
  s.put("H20", "label", "Raw water, to reach it");
  s.result("J20", `IF(ISNUMBER(D6),ESPRESSO.WATER.BLENDSHARE(D6,${name("treatedhardness")},${name("wantedhardness")}),"")`, s.format("percent"));
  s.unit("K20", "percent");
  s.put("H21", "label", "Raw water, as set");
  s.input("J21", "share", "share", 40);
  s.sentence("H22", "verdict", `IF(ISNUMBER(J20),"Set the bypass so that "&${s.said("J20", "percent")}&" of the water is raw, and check the blend at the tap.","")`);

  s.put("H24", "group", `${typeHere}: recipe from pure water`);
  s.put("H25", "label", "Hardness");
  s.input("J25", "recipehardness", "hardness", 60);
  s.put("H26", "label", "Alkalinity");
  s.input("J26", "recipealkalinity", "alkalinity", 40);
  s.put("H27", "label", "Volume");
  s.input("J27", "volume", "watervolume", 10);
  s.put("H28", "label", "Magnesium’s part of the hardness");
  s.input("J28", "magnesiumshare", "magnesiumshare", 100);
  s.put("I29", "unit", "g");
  s.spill("H30", `ESPRESSO.WATER.RECIPE(${name("recipehardness")},${name("recipealkalinity")},${name("volume")},${name("magnesiumshare")})`, 4, [undefined, "0.000"], true);
  s.lines("H35", "footnote", 100, [
    "Method: molar masses of the salts with their crystal water; blend by conservation. ESPRESSO.SOURCE(\"WATER.RECIPE\"), …(\"WATER.BLEND\").",
  ]);
  s.put("A35", "group", "Take care");
  s.put("A36", "note", "Use food-grade salts and weigh with a scale good to 0.01 g. Not for people on a mineral-restricted diet without advice.");
  s.put("A37", "note", "Boilers, scale and descaling acids: the machine maker’s limits and local rules come first; let a licensed person do the work.");

  return s.described({
    name: "Water",
    purpose: "Read a water report in any unit, see what it means for taste, scale and corrosion, and plan a blend or a recipe in grams.",
    widths: [27, 10, 12, 10, 14, 30, 2, 26, 14, 16, 12, 14],
    frozenRows: 2,
    print: { area: "A1:L37", landscape: true, onePage: true },
  });
}
