/** The look of a cell between an .xlsx file and this page. */
import type { Alignment, Border, Borders, Color, Font, Style } from "@cj-tech-master/excelts";
import type { BorderLine, CellStyle } from "./workbook";

/** The theme colours of the file in the order that cells count them, as "#rrggbb". */
export type ThemeColors = readonly string[];

/** Light and dark stand before their counterparts in the file, but after them in the count. */
const themeOrder = ["lt1", "dk1", "lt2", "dk2", "accent1", "accent2", "accent3", "accent4", "accent5", "accent6", "hlink", "folHlink"];

export function themeColors(themeXml: string): ThemeColors {
  return themeOrder.map((name) => {
    const body = new RegExp(`<a:${name}>(.*?)</a:${name}>`, "s").exec(themeXml)?.[1] ?? "";
    const hex = /(?:lastClr|srgbClr val)="([0-9A-Fa-f]{6})"/.exec(body)?.[1];
    return hex ? `#${hex.toLowerCase()}` : "#000000";
  });
}

export function styleFromFile(style: Partial<Style>, theme: ThemeColors): CellStyle | undefined {
  const { font, fill, alignment, border, numFmt } = style;
  const found: CellStyle = {};
  if (font?.bold) found.bold = true;
  if (font?.italic) found.italic = true;
  if (font?.underline && font.underline !== "none") found.underline = true;
  if (font?.strike) found.strike = true;
  if (font?.name) found.font = font.name;
  if (font?.size) found.size = font.size;
  const color = colorFromFile(font?.color, theme);
  if (color && color !== "#000000") found.color = color;
  if (fill?.type === "pattern" && fill.pattern === "solid") found.fill = colorFromFile(fill.fgColor, theme);
  const format = typeof numFmt === "string" ? numFmt : numFmt?.formatCode;
  if (format && format !== "General") found.format = format;
  const { horizontal, vertical } = alignment ?? {};
  if (horizontal === "left" || horizontal === "center" || horizontal === "right") found.horizontal = horizontal;
  if (horizontal === "centerContinuous") found.horizontal = "center";
  if (vertical === "top" || vertical === "middle" || vertical === "bottom") found.vertical = vertical;
  if (alignment?.wrapText) found.wrap = true;
  for (const side of ["top", "right", "bottom", "left"] as const) {
    const edge = border?.[side];
    if (edge?.style) (found.borders ??= {})[side] = { line: lineFromFile(edge.style), color: colorFromFile(edge.color, theme) };
  }
  return Object.values(found).some((value) => value !== undefined) ? found : undefined;
}

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

function lineFromFile(style: string): BorderLine {
  if (["thin", "medium", "thick", "double", "dashed", "dotted", "hair"].includes(style)) return style as BorderLine;
  return style.startsWith("medium") ? "medium" : "dashed";
}

function colorToFile(color: string): Partial<Color> {
  return { argb: `FF${color.slice(1).toUpperCase()}` };
}

function colorFromFile(color: Partial<Color> | undefined, theme: ThemeColors): string | undefined {
  if (color?.argb) return `#${color.argb.slice(-6).toLowerCase()}`;
  const base = color?.theme === undefined ? undefined : theme[color.theme];
  return base && tinted(base, (color as { tint?: number }).tint ?? 0);
}

/** A tint below 0 darkens by that share, above 0 lightens by it (ECMA-376 part 1, 18.8.19, here on each channel). */
function tinted(color: string, tint: number): string {
  const channels = [1, 3, 5].map((at) => parseInt(color.slice(at, at + 2), 16));
  const changed = channels.map((channel) => Math.round(tint < 0 ? channel * (1 + tint) : channel + (255 - channel) * tint));
  return `#${changed.map((channel) => channel.toString(16).padStart(2, "0")).join("")}`;
}
