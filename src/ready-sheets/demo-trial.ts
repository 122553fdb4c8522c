/**
 * The second sheet of the demo: a pressure trial from its plan to what it allows one to say, over the shots of the first sheet.
 * The ranks and the triangle are invented, as the shots are.
 */
import { spelled } from "../sheet/spelling";
import type { DescribedCell, SheetDescription } from "./sheet-description";

type Cells = Record<string, DescribedCell>;

/** What the trial reads from the shot log. */
export interface TrialData {
  readonly pressures: string;
  readonly settings: string;
  readonly results: string;
  /** Beverage mass and time, side by side. */
  readonly covariates: string;
}

/** Rank of each pressure by each taster, 1 for the best. */
const ranks: readonly (readonly number[])[] = [
  [4, 2, 1, 3],
  [3, 1, 2, 4],
  [4, 1, 2, 3],
  [3, 2, 1, 4],
  [2, 1, 3, 4],
  [4, 2, 1, 3],
  [3, 1, 2, 4],
  [4, 3, 1, 2],
];

/** A p-value, never shown as nothing at all. */
const chance = '[<0.0001]"< 0.0001";0.0000';

const repeats = 3;
const settingCount = 4;

export function demoTrial(name: string, data: TrialData): SheetDescription {
  return {
    name,
    purpose: "Plan a trial of brew pressures, and say what its shots and its tasters allow one to say.",
    widths: [18, 10, 12, 3, 15, 10, 16, 16, 12, 12, 12, 12, 3, 22, 13, 10, 10, 12],
    cells: {
      A1: { role: "title", value: "Pressure trial: is the difference real?" },
      A2: { role: "note", value: "Invented figures. The shots are those of the shot log; change one there, or a rank here, and every answer follows." },
      ...plan(data),
      ...comparison(data),
      ...tasting(),
    },
    tables: [],
  };
}

function plan({ pressures }: TrialData): Cells {
  return {
    A4: { role: "group", value: "Plan: a fair order" },
    A5: { role: "label", value: "Shots of each" },
    B5: { role: "input", value: repeats, format: "0" },
    A6: { role: "label", value: "Order number" },
    B6: { role: "input", value: 7, format: "0" },
    A8: { role: "heading", formula: `${spelled("RUN.ORDER")}(${pressures},$B$5,$B$6)` },
    B8: { role: "heading" },
    C8: { role: "heading", value: "Cup code" },
    ...block("A9", repeats * settingCount, ["0", "0.0", "0"]),
    C9: { role: "result", formula: `${spelled("TASTE.CODES")}(${settingCount}*$B$5,$B$6)`, format: "0" },
    A22: { role: "note", value: "Each round pulls every pressure once," },
    A23: { role: "note", value: "in an order of its own. Another order" },
    A24: { role: "note", value: "number gives another order." },
  };
}

function comparison({ settings, results, covariates }: TrialData): Cells {
  return {
    E4: { role: "group", value: "Extraction by pressure, as pulled (%)" },
    E5: { role: "heading", formula: `${spelled("COMPARE")}(${settings},${results})` },
    ...headings("F5", 6),
    ...block("E6", settingCount, ["0.0", "0", "0.00", "0.00", "0.00", "0.00", "@"]),
    E11: { role: "group", value: "As if every shot had had the same beverage mass and time (%)" },
    E12: { role: "heading", formula: `${spelled("COMPARE.ADJUSTED")}(${settings},${results},${covariates})` },
    ...headings("F12", 3),
    ...block("E13", settingCount, ["0.0", "0", "0.00", "0.000"]),
    E18: { role: "group", value: "Do the pressures differ?" },
    ...words("E19", "heading", ["", "", "Statistic", "df", "df", "p", "p, slopes"]),
    E20: { role: "label", value: "As pulled" },
    G20: { role: "result", formula: `${spelled("COMPARE.TEST")}(${settings},${results})`, format: "0.00" },
    ...block("H20", 1, ["0", "0.0", chance]),
    E21: { role: "label", value: "At equal time, mass" },
    G21: { role: "result", formula: `${spelled("COMPARE.ADJUSTEDTEST")}(${settings},${results},${covariates})`, format: "0.00" },
    ...block("H21", 1, ["0", "0", chance, chance]),
    E23: { role: "group", value: "Where extraction peaks" },
    ...words("E24", "heading", ["Pressure, bar", "From", "To", "Extraction, %"]),
    E25: { role: "result", formula: `${spelled("BEST.SETTING")}(${settings},${results})`, format: "0.00" },
    ...block("F25", 1, ["0.00", "0.00", "0.00"]),
    E27: {
      role: "label",
      formula: 'IF(J21<0.05,"The pressures differ in extraction, also at equal time and mass.","These shots show no difference between the pressures; that does not prove that there is none.")',
    },
    E28: { role: "note", value: "Methods: Welch’s test and Games-Howell letters as pulled; analysis of covariance" },
    E29: { role: "note", value: "at equal time and mass; a parabola with Fieller’s interval for the peak." },
    E30: { role: "note", value: "p, slopes: small means that time or mass works differently at some pressure." },
    E31: { role: "note", value: "Extraction is not quality, and a difference can be real and too small to matter: ask the tasters." },
  };
}

function tasting(): Cells {
  return {
    N4: { role: "group", value: "Ranks by taste, 1 is the best" },
    ...words("N5", "heading", ["Taster", "9 bar", "7.5 bar", "6 bar", "4.5 bar"]),
    ...Object.fromEntries(
      ranks.flatMap((row, taster) => [
        [`N${6 + taster}`, { role: "label", value: `Taster ${taster + 1}` }],
        ...row.map((rank, index): [string, DescribedCell] => [`${"OPQR"[index]}${6 + taster}`, { role: "input", value: rank, format: "0" }]),
      ]),
    ),
    N14: { role: "label", value: "Sum (low is liked)" },
    ...Object.fromEntries([..."OPQR"].map((letter) => [`${letter}14`, { role: "result", formula: `SUM(${letter}6:${letter}13)`, format: "0" }])),
    ...words("N16", "heading", ["", "Friedman F", "df", "p", "Difference"]),
    N17: { role: "label", value: "Do tastes agree?" },
    O17: { role: "result", formula: `${spelled("TASTE.RANKS")}(O6:R13)`, format: "0.00" },
    ...block("P17", 1, ["0", chance, "0.0"]),
    N18: { role: "note", value: "Sums that lie apart by this difference or more differ at 5 %." },
    N20: { role: "group", value: "Triangle: 9 bar against 6 bar" },
    N21: { role: "label", value: "Tasters" },
    O21: { role: "input", value: 24, format: "0" },
    N22: { role: "label", value: "Found the odd cup" },
    O22: { role: "input", value: 14, format: "0" },
    N23: { role: "label", value: "p" },
    O23: { role: "result", formula: `${spelled("TASTE.TRIANGLE")}(O22,O21)`, format: chance },
    N24: { role: "label", value: "Needed at 5 %" },
    O24: { role: "result", formula: `${spelled("TASTE.NEEDED")}(O21,"triangle")`, format: "0" },
    N25: { role: "label", value: "Distance d′" },
    O25: { role: "result", formula: `${spelled("TASTE.DISTANCE")}(O22,O21,"triangle")`, format: "0.00" },
    ...block("P25", 1, ["0.00", "0.00"]),
    R25: { role: "note", value: "and its 95 % ends" },
    N27: { role: "label", formula: 'IF(O22>=O24,"The tasters tell the two pressures apart.","These tasters do not show that the two pressures taste different.")' },
    N28: { role: "note", value: "Methods: Friedman’s test of ranks (ISO 8587); triangle test (ISO 4120), one-sided." },
    N29: { role: "note", value: "Let it cool, let tasters spit, mind the caffeine, and name allergens such as milk." },
  };
}

/** Cells that a spilled result fills: a format for each column. */
function block(at: string, rows: number, formats: readonly string[]): Cells {
  const [, letter, row] = /^([A-Z])(\d+)$/.exec(at)!;
  const cells: Cells = {};
  for (let down = 0; down < rows; down++) {
    formats.forEach((format, across) => (cells[`${String.fromCharCode(letter!.charCodeAt(0) + across)}${Number(row) + down}`] = { role: "result", format }));
  }
  return cells;
}

function headings(at: string, count: number): Cells {
  return words(at, "heading", Array.from({ length: count }, () => undefined));
}

function words(at: string, role: DescribedCell["role"], texts: readonly (string | undefined)[]): Cells {
  const [, letter, row] = /^([A-Z])(\d+)$/.exec(at)!;
  return Object.fromEntries(texts.map((value, across) => [`${String.fromCharCode(letter!.charCodeAt(0) + across)}${row}`, value === undefined ? { role } : { role, value }]));
}
