/**
 * The workbook that the browser sheet opens with: an invented shot log of an invented bar, so that every formula has something to work on.
 * All figures are made up to be plausible; none was measured.
 */
import { spelled } from "../sheet/spelling";
import { demoTrial } from "./demo-trial";
import type { SheetDescription } from "./sheet-description";

/** Pressure (bar), grind setting (smaller is finer), dose (g), beverage (g), time (s), strength (%). */
const shots: readonly (readonly [number, number, number, number, number, number])[] = [
  [9, 2.7, 18.0, 35.9, 32.0, 9.67],
  [7.5, 2.4, 18.0, 36.7, 31.0, 9.66],
  [6, 2.05, 18.0, 36.2, 33.0, 9.89],
  [4.5, 1.6, 18.1, 36.3, 30.5, 9.62],
  [9, 3.1, 17.9, 35.5, 18.5, 9.36],
  [7.5, 2.8, 18.0, 36.3, 19.5, 9.37],
  [6, 2.45, 18.0, 35.6, 19.5, 9.88],
  [4.5, 2.0, 18.1, 35.6, 20.0, 9.4],
  [9, 2.8, 18.0, 36.4, 28.0, 9.5],
  [7.5, 2.5, 17.9, 35.7, 28.0, 9.89],
  [6, 2.15, 18.0, 36.3, 27.5, 9.55],
  [4.5, 1.7, 18.1, 34.8, 28.5, 9.87],
  [9, 3.0, 17.9, 36.3, 22.0, 9.29],
  [7.5, 2.7, 18.1, 36.4, 21.0, 9.6],
  [6, 2.35, 18.0, 36.1, 23.0, 9.51],
  [4.5, 1.9, 18.0, 35.7, 22.5, 9.32],
  [9, 2.95, 18.0, 36.8, 23.0, 9.03],
  [7.5, 2.65, 18.0, 36.9, 22.5, 9.42],
  [6, 2.3, 17.8, 36.2, 22.0, 9.41],
  [4.5, 1.85, 18.1, 36.7, 22.5, 9.28],
  [9, 2.85, 18.0, 37.0, 27.0, 9.36],
  [7.5, 2.55, 18.0, 35.1, 27.0, 10.09],
  [6, 2.2, 18.0, 34.8, 27.5, 10.04],
  [4.5, 1.75, 17.9, 35.9, 27.5, 9.6],
  [9, 2.9, 18.1, 36.3, 24.0, 9.43],
  [7.5, 2.6, 18.1, 36.1, 25.0, 9.8],
  [6, 2.25, 18.0, 36.6, 24.5, 9.56],
  [4.5, 1.8, 18.1, 36.9, 24.5, 9.22],
  [9, 2.9, 18.0, 35.9, 24.0, 9.47],
  [7.5, 2.6, 17.9, 36.8, 26.0, 9.28],
  [6, 2.25, 18.1, 36.7, 24.5, 9.68],
  [4.5, 1.8, 18.0, 36.1, 25.5, 9.5],
  [9, 2.95, 18.0, 36.3, 23.5, 9.39],
  [7.5, 2.65, 18.0, 37.2, 24.0, 9.36],
  [6, 2.3, 18.0, 36.0, 23.0, 9.78],
  [4.5, 1.85, 18.0, 37.1, 23.0, 8.85],
  [9, 2.85, 18.0, 36.2, 25.5, 9.49],
  [7.5, 2.55, 18.1, 36.2, 26.5, 9.63],
  [6, 2.2, 18.0, 35.7, 28.5, 9.88],
  [4.5, 1.75, 18.0, 34.4, 26.5, 9.86],
  [9, 2.9, 17.9, 36.0, 26.0, 9.58],
  [7.5, 2.6, 18.1, 35.0, 25.5, 9.95],
  [6, 2.25, 18.0, 36.7, 24.5, 9.24],
  [4.5, 1.8, 17.9, 36.4, 26.0, 9.16],
  [9, 2.9, 18.1, 35.9, 25.0, 9.6],
  [7.5, 2.6, 18.0, 35.9, 25.5, 9.86],
  [6, 2.25, 18.0, 37.6, 26.0, 9.22],
  [4.5, 1.8, 18.0, 36.1, 25.5, 9.51],
];

const pressures = [9, 7.5, 6, 4.5];
const shotsEachDay = 8;
/** 2 March 2026, as cells count days. */
const firstDay = 46083;

const firstRow = 5;
const lastRow = firstRow + shots.length - 1;
/** A column of the log as formulas refer to it. */
const all = (column: string) => `$${column}$${firstRow}:$${column}$${lastRow}`;

const shotLog: SheetDescription = {
  name: "Shot log",
  purpose: "Every shot of a trial of four brew pressures, with what was weighed, timed and read, and what follows from it.",
  widths: [6, 8, 11, 7, 8, 11, 8, 11, 7, 12, 7, 7, 2, 11, 11, 12, 11, 7, 7],
  frozenRows: 4,
  cells: {
    A1: { role: "title", value: "Shot log: which brew pressure?" },
    A2: { role: "note", value: "Invented figures. One coffee, one basket; the grind was set anew at every pressure to land near the target time." },
    A3: { role: "group", value: "Typed in" },
    I3: { role: "group", value: "Calculated" },
    N1: { role: "title", value: "Summary" },
    N3: { role: "label", value: "Target time, s" },
    P3: { role: "input", value: 25, format: "0" },
    N4: { role: "heading", value: "Pressure, bar" },
    O4: { role: "heading", value: "Shots" },
    P4: { role: "heading", value: "Extraction, %" },
    Q4: { role: "heading", value: "Grind for the time" },
    R4: { role: "heading", value: "from" },
    S4: { role: "heading", value: "to" },
    ...summaryRows(),
    N10: { role: "note", value: "from and to: where one new shot would lie, 19 times in 20." },
    N12: { role: "title", value: "The last shot" },
    N13: { role: "heading", value: "Ratio" },
    O13: { role: "heading", value: "Extraction" },
    P13: { role: "heading", value: "Solids" },
    Q13: { role: "heading", value: "Flow" },
    N14: { role: "result", formula: `${spelled("SHOT")}(E${lastRow},F${lastRow},H${lastRow},G${lastRow})`, format: "0.00" },
    O14: { role: "result", format: '0.00" %"' },
    P14: { role: "result", format: '0.00" g"' },
    Q14: { role: "result", format: '0.00" g/s"' },
    N15: { role: "note", value: "One formula fills all four cells." },
    N17: { role: "note", value: "Change a dose, a time or the target and see what follows." },
    N18: { role: "note", value: "Hot, pressurised machine: keep to its maker’s limits." },
  },
  tables: [
    {
      name: "Shots",
      at: `A${firstRow - 1}`,
      rows: shots.length,
      columns: [
        { heading: "Shot", role: "input", format: "0", values: shots.map((_, index) => index + 1) },
        { heading: "Day", role: "input", format: "d mmm", values: shots.map((_, index) => firstDay + Math.floor(index / shotsEachDay)) },
        { heading: "Pressure, bar", role: "input", format: "0.0", values: shots.map(([pressure]) => pressure) },
        { heading: "Grind", role: "input", format: "0.00", values: shots.map(([, grind]) => grind) },
        { heading: "Dose, g", role: "input", format: "0.0", values: shots.map(([, , dose]) => dose) },
        { heading: "Beverage, g", role: "input", format: "0.0", values: shots.map(([, , , beverage]) => beverage) },
        { heading: "Time, s", role: "input", format: "0.0", values: shots.map(([, , , , time]) => time) },
        { heading: "Strength, %", role: "input", format: "0.00", values: shots.map(([, , , , , strength]) => strength) },
        { heading: "Ratio", role: "result", format: "0.00", formula: `${spelled("RATIO")}(E${firstRow},F${firstRow})` },
        { heading: "Extraction, %", role: "result", format: "0.00", formula: `${spelled("EXTRACTION")}(E${firstRow},F${firstRow},H${firstRow})` },
        { heading: "± %", role: "result", format: "0.00", formula: `${spelled("EXTRACTION.UNCERTAINTY")}(E${firstRow},F${firstRow},H${firstRow})` },
        { heading: "Flow, g/s", role: "result", format: "0.00", formula: `${spelled("FLOW")}(F${firstRow},G${firstRow})` },
      ],
    },
  ],
};

function summaryRows(): SheetDescription["cells"] {
  const rows: [string, SheetDescription["cells"][string]][] = [];
  pressures.forEach((pressure, index) => {
    const row = 5 + index;
    const own = (column: string) => `FILTER(${all(column)},${all("C")}=$N${row})`;
    rows.push(
      [`N${row}`, { role: "input", value: pressure, format: "0.0" }],
      [`O${row}`, { role: "result", formula: `COUNTIF(${all("C")},N${row})`, format: "0" }],
      [`P${row}`, { role: "result", formula: `AVERAGEIF(${all("C")},N${row},${all("J")})`, format: "0.00" }],
      [`Q${row}`, { role: "result", formula: `${spelled("GRIND.FORTIME")}(${own("D")},${own("G")},$P$3)`, format: "0.00" }],
      [`R${row}`, { role: "result", format: "0.00" }],
      [`S${row}`, { role: "result", format: "0.00" }],
    );
  });
  return Object.fromEntries(rows);
}

const inShotLog = (column: string) => `'${shotLog.name}'!${all(column)}`;

const pressureTrial = demoTrial("Pressure trial", {
  pressures: `'${shotLog.name}'!$N$5:$N$${4 + pressures.length}`,
  settings: inShotLog("C"),
  results: inShotLog("J"),
  covariates: `'${shotLog.name}'!$F$${firstRow}:$G$${lastRow}`,
});

export const demo: readonly SheetDescription[] = [shotLog, pressureTrial];
