/**
 * The workbook that the browser sheet opens with: ready sheets with the invented figures of an invented bar, so that every formula has something to work on.
 * All figures are made up to be plausible and in canonical units; none was measured.
 */
import type { ReadySheetId } from "./index";
import type { Figures } from "./ready-sheet";

/** Brew pressure (bar), grind setting (smaller is finer), dose (g), beverage (g), time (s), strength (%). */
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

const column = (index: number) => shots.map((shot) => shot[index]);

export const demo: readonly { readonly id: ReadySheetId; readonly figures: Figures }[] = [
  {
    id: "ShotLog",
    figures: { columns: { "": { Shot: shots.map((_, index) => index + 1), Setting: column(1), Dose: column(2), Beverage: column(3), Time: column(4), Strength: column(5) } } },
  },
  {
    id: "Trial",
    figures: {
      cells: { repeats: 12, seed: 7 },
      columns: { Plan: { Setting: [9, 7.5, 6, 4.5] }, "": { Setting: column(0), Dose: column(2), Beverage: column(3), Time: column(4), Strength: column(5) } },
    },
  },
];
