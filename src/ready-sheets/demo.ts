/**
 * The workbook that the browser sheet opens with: ready sheets with the figures of an invented bar, so that every formula has something to work on.
 * All are made up to be plausible and in canonical units; none was measured. A trial of preinfusion over three mornings: the mornings differ by
 * more than the settings do, and extraction climbs as the machine warms up, so that a comparison that forgets the mornings finds nothing.
 */
import type { ReadySheetId } from "./index";
import type { Figures } from "./ready-sheet";

/** Shots to guests before the trial: dose (g), beverage (g), time (s), strength (%) and grind setting (smaller is finer). */
const served: readonly (readonly [number, number, number, number, number])[] = [
  [18.0, 35.9, 23.0, 9.41, 2.5],
  [17.9, 35.6, 22.5, 9.42, 2.5],
  [18.0, 35.3, 23.5, 9.39, 2.5],
  [18.0, 35.5, 23.5, 9.55, 2.5],
  [18.0, 35.7, 22.5, 9.36, 2.5],
  [18.1, 36.3, 26.0, 9.69, 2.45],
  [18.0, 35.7, 24.0, 9.41, 2.45],
  [18.1, 36.5, 25.5, 9.75, 2.45],
  [17.9, 34.7, 24.5, 9.59, 2.45],
  [17.9, 35.5, 25.0, 9.75, 2.45],
  [18.0, 35.7, 25.0, 9.69, 2.45],
  [17.9, 36.4, 24.0, 9.54, 2.4],
  [18.0, 36.0, 23.5, 9.54, 2.4],
  [17.9, 36.4, 23.0, 9.44, 2.4],
  [18.0, 35.6, 25.0, 9.62, 2.4],
  [18.2, 36.2, 26.0, 9.57, 2.4],
  [18.1, 36.5, 26.0, 9.78, 2.4],
  [17.9, 35.3, 24.0, 9.49, 2.4],
  [18.1, 35.0, 25.0, 9.69, 2.4],
  [18.0, 35.2, 24.5, 9.62, 2.38],
  [18.1, 35.9, 25.5, 9.75, 2.38],
  [18.0, 37.1, 24.5, 9.73, 2.38],
  [17.9, 36.7, 25.5, 9.5, 2.38],
  [18.0, 36.3, 26.0, 9.67, 2.38],
  [18.0, 35.8, 25.5, 9.73, 2.38],
  [18.0, 36.4, 25.5, 9.75, 2.38],
  [18.2, 37.2, 24.5, 9.5, 2.35],
  [17.9, 35.8, 27.5, 9.72, 2.35],
  [18.0, 35.9, 24.0, 9.44, 2.35],
  [17.9, 35.5, 25.5, 9.59, 2.35],
  [18.0, 35.1, 26.5, 9.73, 2.35],
  [17.9, 35.7, 25.0, 9.44, 2.35],
];

/** Of the trial: the same, and the scores of two tasters, in the order of the plan. */
const shots: readonly (readonly [number, number, number, number, number, number, number])[] = [
  [17.9, 35.3, 26.5, 10.28, 2.25, 6.5, 6.5],
  [18, 36, 27, 9.99, 2.35, 6.5, 6.5],
  [18.1, 36.5, 26.5, 10.16, 2.3, 7.5, 7],
  [18, 36.1, 27, 10.28, 2.25, 6, 6.5],
  [18, 36.4, 27, 9.99, 2.35, 6, 6.5],
  [18, 36.7, 25.5, 10.08, 2.3, 7.5, 7],
  [18, 35.8, 27, 10.55, 2.3, 6.5, 6],
  [18, 35.6, 26.5, 10.45, 2.35, 6, 6],
  [18, 36.2, 27.5, 10.51, 2.25, 5.5, 5.5],
  [18, 36.2, 27, 10.54, 2.3, 6, 6],
  [18, 36.6, 25.5, 10.27, 2.35, 5.5, 5.5],
  [18, 36.3, 27, 10.72, 2.25, 5.5, 6],
  [18, 36.1, 27, 9.45, 2.35, 6.5, 7],
  [18, 36.3, 26, 9.64, 2.3, 7.5, 8],
  [18, 36.1, 25.5, 9.66, 2.25, 7, 6.5],
  [18, 35.5, 26, 9.63, 2.35, 6.5, 7],
  [18.1, 36, 25.5, 9.84, 2.25, 7, 7],
  [18, 36.1, 27, 9.67, 2.3, 7.5, 7.5],
];

const column = (rows: readonly (readonly number[])[], index: number) => rows.map((row) => row[index]);
const weighed = (rows: readonly (readonly number[])[]) =>
  Object.fromEntries(["Dose", "Beverage", "Time", "Strength"].map((heading, index) => [heading, column(rows, index)]));
const logged = [...served, ...shots];

/** The day of each shot, written where it begins: three days of service, then the mornings of the trial. */
const daysBegin: Readonly<Record<number, string>> = { 0: "Mon", 11: "Tue", 26: "Wed", 32: "Thu", 38: "Fri", 44: "Sat" };

export const demo: readonly { readonly id: ReadySheetId; readonly figures: Figures }[] = [
  {
    id: "ShotLog",
    figures: {
      columns: {
        "": {
          Day: logged.map((_, index) => daysBegin[index]), Coffee: ["House"], Setting: column(logged, 4), ...weighed(logged),
          Note: logged.map((_, index) => (index < served.length ? undefined : "trial")),
        },
        Targets: { Coffee: ["House"], Dose: [18], Beverage: [36], Time: [27] },
      },
    },
  },
  {
    id: "Trial",
    figures: {
      cells: { varied: "Preinfusion", unit: "s", repeats: 6, mornings: 3, seed: 7 },
      columns: { Plan: { "To try": [2, 5, 8] }, "": { ...weighed(shots), Grind: column(shots, 4), "Taste 1": column(shots, 5), "Taste 2": column(shots, 6) } },
    },
  },
];
