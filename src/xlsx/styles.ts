/** The look of a cell as the library writes it into a new .xlsx file. */
import type { Alignment, Border, Borders, Color, Font, Style } from "@cj-tech-master/excelts";
import type { BorderLine, CellStyle } from "./workbook";

export function styleToFile(style: CellStyle): Partial<Style> {
  const written: Partial<Style> = {};
  const font: Partial<Font> = {};
  if (style.bold) font.bold = true;
  if (style.italic) font.italic = true;
  if (style.underline) font.underline = true;
  if (style.strike) font.strike = true;
  if (style.color) font.color = colorToFile(style.color);
  if (Object.keys(font).length > 0 || style.font || style.size) {
    written.font = { name: style.font ?? defaultFont.name, size: style.size ?? defaultFont.size, ...font };
  }
  if (style.fill) written.fill = { type: "pattern", pattern: "solid", fgColor: colorToFile(style.fill) };
  if (style.format) written.numFmt = style.format;
  const alignment: Partial<Alignment> = {};
  if (style.horizontal) alignment.horizontal = style.horizontal;
  if (style.vertical) alignment.vertical = style.vertical;
  if (style.wrap) alignment.wrapText = true;
  if (Object.keys(alignment).length > 0) written.alignment = alignment;
  if (style.borders) {
    const borders: Partial<Borders> = {};
    for (const [side, edge] of Object.entries(style.borders) as ["top" | "right" | "bottom" | "left", { line: BorderLine; color?: string }][]) {
      const border: Partial<Border> = { style: edge.line };
      if (edge.color) border.color = colorToFile(edge.color);
      borders[side] = border;
    }
    written.border = borders;
  }
  return written;
}

/** What a cell without a font of its own has in a new workbook. */
const defaultFont = { name: "Calibri", size: 11 };

function colorToFile(color: string): Partial<Color> {
  return { argb: `FF${color.slice(1).toUpperCase()}` };
}
