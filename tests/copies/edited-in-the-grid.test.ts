import { it } from "vitest";
import { differsOnlyInWhatWasDone } from "./edited-in-the-grid.ts";

/** With tables, shared formulas, names, charts and pictures, and days that are counted from 1904. */
const some = ["poi-DataTableCities.xlsx", "poi-simple-table-named-range.xlsx", "shared-columns.xlsx", "poi-simple-monthly-budget.xlsx", "1904-clock.xlsx"];

it.each(some)("%s, worked on in the grid, differs only in what was done", (name) => differsOnlyInWhatWasDone(name, { validated: false }));
