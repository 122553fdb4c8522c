/** A part of a sheet as pages of paper: cells as in the grid, charts where they stand, and headings repeated on every page. */
import type { Area } from "../../xlsx/workbook";
import { contains } from "../../sheet/references";
import type { PrintedArea, PrintedCell } from "./grid/printed";
import type { Paper } from "./paper";

/** Millimetres. */
const papers = { A4: { width: 210, height: 297 }, letter: { width: 215.9, height: 279.4 } } as const;
const margin = 10;
const pixelsOfMillimetre = 96 / 25.4;

export interface PrintedPage {
  readonly title: string;
  readonly printed: PrintedArea;
  readonly paper: Paper;
  readonly landscape: boolean;
  /** Everything on one page. */
  readonly onePage: boolean;
  /** Rows that every page repeats. */
  readonly repeated: { readonly first: number; readonly last: number } | undefined;
  readonly charts: readonly { readonly area: Area; readonly drawing: HTMLElement }[];
}

/** Puts the pages into the document, where only a printer sees them. Answers the way to take them out again. */
export function showForPrinter({ title, printed, paper, landscape, onePage, repeated, charts }: PrintedPage): () => void {
  const sheet = new CSSStyleSheet();
  // The page's policy allows no style in the markup; this is one of the ways that it does allow.
  sheet.replaceSync(`@page { size: ${paper} ${landscape ? "landscape" : "portrait"}; margin: ${margin}mm; }`);
  const view = document.createElement("div");
  view.className = "print";
  view.setAttribute("aria-label", title);
  const table = document.createElement("table");
  const width = printed.columns.reduce((sum, column) => sum + column.width, 0);
  const height = printed.rows.reduce((sum, row) => sum + row.height, 0);
  table.style.width = `${width}px`;
  const { width: short, height: long } = papers[paper];
  const roomAcross = ((landscape ? long : short) - 2 * margin) * pixelsOfMillimetre;
  const roomDown = ((landscape ? short : long) - 2 * margin) * pixelsOfMillimetre;
  // A little less than the room: a line more would be a page more.
  const scale = Math.min(1, roomAcross / width, onePage ? (roomDown * 0.98) / height : 1);
  table.style.setProperty("zoom", String(Math.floor(scale * 1000) / 1000));
  table.append(columnsOf(printed));
  const head = document.createElement("thead");
  const body = document.createElement("tbody");
  for (const { row, height: pixels, cells } of printed.rows) {
    const line = document.createElement("tr");
    line.style.height = `${pixels}px`;
    for (const { column } of printed.columns) {
      const cell = cells.get(column);
      if (!cell) continue;
      const element = cellElement(cell);
      for (const { area, drawing } of charts) {
        if (row === area.top && column === area.left) element.append(placed(drawing, area, printed));
      }
      line.append(element);
    }
    (repeated && row >= repeated.first && row <= repeated.last ? head : body).append(line);
  }
  // What stands above the repeated rows comes first, once.
  if (repeated && head.rows.length > 0) {
    const before = [...body.rows].slice(0, printed.rows.filter(({ row }) => row < repeated.first).length);
    const first = document.createElement("table");
    first.style.width = table.style.width;
    first.style.setProperty("zoom", table.style.getPropertyValue("zoom"));
    first.append(columnsOf(printed), ...before);
    if (before.length > 0) view.append(first);
    table.append(head);
  }
  table.append(body);
  view.append(table);
  document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
  document.body.append(view);
  return () => {
    view.remove();
    document.adoptedStyleSheets = document.adoptedStyleSheets.filter((other) => other !== sheet);
  };
}

function columnsOf({ columns }: PrintedArea): HTMLElement {
  const group = document.createElement("colgroup");
  for (const { width } of columns) {
    const column = document.createElement("col");
    column.style.width = `${width}px`;
    group.append(column);
  }
  return group;
}

function cellElement({ text, rows, columns, bold, italic, wrap, align, size, color, fill, borders }: PrintedCell): HTMLTableCellElement {
  const cell = document.createElement("td");
  cell.textContent = text;
  if (rows > 1) cell.rowSpan = rows;
  if (columns > 1) cell.colSpan = columns;
  const { style } = cell;
  if (bold) style.fontWeight = "bold";
  if (italic) style.fontStyle = "italic";
  if (size !== undefined) style.fontSize = `${size}pt`;
  if (color !== undefined) style.color = color;
  if (fill !== undefined) style.backgroundColor = fill;
  style.textAlign = align;
  style.whiteSpace = wrap ? "normal" : "nowrap";
  for (const [side, line] of Object.entries(borders)) style.setProperty(`border-${side}`, `1px solid ${line}`);
  return cell;
}

/** A chart over the cells that it stands on. */
function placed(drawing: HTMLElement, area: Area, { columns, rows }: PrintedArea): HTMLElement {
  const { style } = drawing;
  style.position = "absolute";
  const inside = { across: columns.filter(({ column }) => contains(area, area.top, column)), down: rows.filter(({ row }) => contains(area, row, area.left)) };
  style.width = `${inside.across.reduce((sum, column) => sum + column.width, 0)}px`;
  style.height = `${inside.down.reduce((sum, row) => sum + row.height, 0)}px`;
  return drawing;
}
