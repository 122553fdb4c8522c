/** Invented figures for every ready sheet, so that a person can see a sheet at work. None was measured; all are in canonical units. */
import type { Figures } from "./ready-sheet";

const shotTimes = [27.5, 26, 29.5, 28, 25.5, 31.5, 27, 26.5, 28.5, 24.5, 27, 33, 28, 26.5, 25, 29, 27.5, 26, 30.5, 27, 28.5, 22.5, 27.5, 26];
const strengths = [9.4, 9.2, 9.7, 9.5, 9.1, 9.9, 9.4, 9.3, 9.6, 9.0, 9.4, 10.1, 9.5, 9.2, 9.1, 9.6, 9.4, 9.3, 9.8, 9.4, 9.5, 8.7, 9.4, 9.2];

const trial = [
  [2.4, 18.0, 36.2, 25.0, 9.32, 6.5], [2.2, 18.1, 36.0, 27.5, 9.74, 7.5], [2.0, 18.0, 35.8, 31.0, 9.98, 6.5], [2.6, 18.0, 36.4, 22.5, 8.86, 5.5],
  [2.2, 18.0, 36.1, 28.0, 9.81, 7.5], [2.6, 17.9, 36.0, 22.0, 8.79, 5.0], [2.4, 18.0, 36.3, 25.5, 9.41, 7.0], [2.0, 18.1, 36.1, 30.5, 9.87, 6.0],
  [2.6, 18.0, 36.2, 23.0, 8.92, 5.5], [2.0, 18.0, 36.0, 32.0, 9.93, 6.5], [2.2, 17.9, 35.9, 27.0, 9.77, 8.0], [2.4, 18.0, 36.1, 25.0, 9.36, 6.5],
] as const;

/** A log as people keep them: units in the cells, a colon for seconds, a comma for a point, a swap, a gap and a slip. */
const auditTimes = ["0:27", "26 s", 28.5, "0:25", 27, 29, "28,0", 26.5, 27.5, "0:28", 27, 25.5, 28, 27, 26, 29.5, 27, 28, 33, 33.5, 34, 32.5, 27, 26, 28, 27.5, 26.5, 28, 27, 25];
const auditDoses = ["18 g", 18.1, "18,0", 18, 17.9, 18, 36.1, 18, 18.2, 18, 18, 18.1, 18, 17.8, 18, 18, 18, 18.1, 18, 18, 18, 17.9, 18, 18, 18, 18, 18, 18, 18.1, 18];
const auditCups = ["36 g", 36.4, "35,8", 36, 36.2, 35, 18.0, 36.5, 37, 36, 35.5, 36, "", 36.2, 36, 35, 36.4, 36, 34, 33.8, 34.1, 34, 36, 36.6, 36, 35.9, 36, 36.2, 36, 36.4];
const auditStrengths = ["9,4 %", 9.3, 9.5, 9.2, 9.4, 9.7, 9.5, 9.3, 9.2, 9.4, 9.6, 9.3, 9.4, 9.4, "9.3", 9.8, 9.4, 9.4, 10.2, 10.3, 10.1, 10.2, 0.094, 9.2, 9.4, 9.4, 9.3, 9.4, 9.3, 9.1];

export const exampleFigures = {
  ShotLog: {
    columns: {
      "": {
        Shot: shotTimes.map((_, index) => index + 1),
        Setting: shotTimes.map((_, index) => (index < 12 ? 2.3 : 2.2)),
        Dose: shotTimes.map((_, index) => 18 + (((index * 7) % 5) - 2) / 10),
        Beverage: shotTimes.map((_, index) => 36 + (((index * 11) % 9) - 4) / 4),
        Time: shotTimes,
        Strength: strengths,
      },
    },
  },
  DialIn: {
    columns: { "": { Setting: [2.8, 2.6, 2.4, 2.2, 2.0, 2.3], Time: [19.5, 22, 25.5, 29.5, 34, 27], Note: ["fast, pale", undefined, undefined, undefined, "drips"] } },
  },
  Trial: {
    columns: {
      Plan: { Setting: [2.0, 2.2, 2.4, 2.6] },
      "": Object.fromEntries(["Setting", "Dose", "Beverage", "Time", "Strength", "Taste"].map((heading, column) => [heading, trial.map((row) => row[column])])),
    },
  },
  Recipe: {
    cells: { coffee: "House espresso (invented)", machine: "Two-group, 58 mm, 18 g basket", grinder: "Flat burr, 2.2", date: "2 March" },
  },
  Tasting: {
    columns: {
      "": { "Odd cup found": ["yes", "yes", "no", "yes", "yes", "no", "yes", "yes", "no", "yes", "yes", "yes"] },
      Ranks: {
        Taster: ["1", "2", "3", "4", "5", "6", "7", "8"],
        A: [2, 1, 2, 3, 1, 2, 2, 1],
        B: [1, 2, 1, 1, 2, 1, 1, 2],
        C: [3, 3, 4, 2, 4, 3, 3.5, 3],
        D: [4, 4, 3, 4, 3, 4, 3.5, 4],
      },
    },
  },
  Water: {
    cells: { hardness: 12, hardness_unit: "dH", calciumHardness: 9.5, calciumhardness_unit: "dH", alkalinity: 190, alkalinity_unit: "HCO3", ph: 7.6, temperature: 25, tds: 310, chloride: 28, sulfate: 35, sodium: 14, chlorine: 0.1 },
  },
  Audit: {
    columns: {
      "": {
        Shot: auditTimes.map((_, index) => index + 1),
        Setting: auditTimes.map((_, index) => (index >= 18 && index < 22 ? 2.1 : 2.2)),
        Dose: auditDoses,
        Beverage: auditCups,
        Time: auditTimes,
        Strength: auditStrengths,
      },
    },
    cells: { client: "An invented café", auditor: "An auditor, 2 March" },
  },
} satisfies Record<string, Figures>;
