/** Prints the sheet in sight: of a ready sheet the part that is meant for paper, of any other all that it holds. */
import { describedReadySheet } from "../../ready-sheets/index";
import type { DescribedPrint } from "../../ready-sheets/sheet-description";
import { areaOf } from "../../sheet/references";
import { defaultUnits } from "../../sheet/unit-choice";
import { chartsOn, readySheetOn } from "../../xlsx/ready-sheets";
import { cellsOf, type Area, type Workbook } from "../../xlsx/workbook";
import { drawnChart } from "./chart";
import { chartCells } from "./chart-panel";
import type { Grid } from "./grid/grid";
import type { Paper } from "./paper";
import { showForPrinter } from "./print-view";

/** Pixels; wider sheets are laid across. */
const widestUpright = 800;

export interface PrintPlan {
  readonly area: Area;
  readonly landscape: boolean;
  readonly onePage: boolean;
  readonly repeated: { readonly first: number; readonly last: number } | undefined;
}

/** What to print of a sheet; undefined where it is empty. */
export function planOf(workbook: Workbook, sheetName: string, widthOf: (area: Area) => number): PrintPlan | undefined {
  const sheet = workbook.sheets.find(({ name }) => name === sheetName);
  const filled = sheet && [...cellsOf(sheet)].filter(({ cell }) => cell.value !== undefined);
  if (!filled || filled.length === 0) return undefined;
  const described = describedPrint(workbook, sheetName);
  const wanted = described && areaOf(described.area);
  const columns = filled.map(({ column }) => column);
  const [left, right] = wanted ? [wanted.left, wanted.right] : [columns.reduce((a, b) => Math.min(a, b)), columns.reduce((a, b) => Math.max(a, b))];
  // Tables grow beyond what was meant for paper at first.
  const last = filled.reduce((bottom, { row, column }) => (column >= left && column <= right ? Math.max(bottom, row) : bottom), wanted?.bottom ?? 0);
  const area = { top: wanted?.top ?? 0, left, bottom: last, right };
  const repeated = described?.repeated === undefined ? headingsOf(sheet!.tables.map((table) => table.area), area) : areaOf(described.repeated);
  return {
    area,
    landscape: described ? described.landscape === true : widthOf(area) > widestUpright,
    onePage: described?.onePage === true,
    repeated: repeated && { first: repeated.top, last: repeated.bottom },
  };
}

export function printSheet(grid: Grid, sheetName: string, plan: PrintPlan, { paper, landscape }: { paper: Paper; landscape: boolean }): void {
  const cells = chartCells(grid, sheetName);
  const charts = (chartsOn(grid.names(), sheetName) ?? []).flatMap((chart) => {
    const area = areaOf(`${chart.from}:${chart.to}`);
    return area ? [{ area, drawing: drawnChart(chart, cells, printedWidth) }] : [];
  });
  const printed = grid.printedArea(sheetName, plan.area);
  const takeAway = showForPrinter({ title: sheetName, printed, paper, landscape, onePage: plan.onePage, repeated: plan.repeated, charts });
  addEventListener("afterprint", takeAway, { once: true });
  print();
}

/** Pixels; the drawing takes the size of its cells. */
const printedWidth = 480;

function describedPrint(workbook: Workbook, sheetName: string): DescribedPrint | undefined {
  const found = readySheetOn(workbook.names, sheetName);
  return found && describedReadySheet(found.id, { units: defaultUnits, copy: found.copy }).print;
}

/** The headings of a table that goes on to another page. */
function headingsOf(tables: readonly Area[], { bottom }: Area): Area | undefined {
  const table = tables.find((area) => area.bottom - area.top > 20 && area.bottom <= bottom);
  return table && { ...table, bottom: table.top };
}
