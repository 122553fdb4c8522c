/** The looks of cells as a file keeps them: lists of fonts, fills, borders and formats, and a list of combinations that cells point to. */
import { colorOf, standardPalette, type Palette } from "./colors";
import type { BorderLine, CellStyle } from "./workbook";
import { isOn, walk, type Attributes } from "./xml";
import { countsDays } from "./date-format";

/** The codes of formats that a file names by number only (ECMA-376 part 1, 18.8.30). */
export const builtInFormats: ReadonlyMap<number, string> = new Map([
  [1, "0"],
  [2, "0.00"],
  [3, "#,##0"],
  [4, "#,##0.00"],
  [5, '"$"#,##0_);\\("$"#,##0\\)'],
  [6, '"$"#,##0_);[Red]\\("$"#,##0\\)'],
  [7, '"$"#,##0.00_);\\("$"#,##0.00\\)'],
  [8, '"$"#,##0.00_);[Red]\\("$"#,##0.00\\)'],
  [9, "0%"],
  [10, "0.00%"],
  [11, "0.00E+00"],
  [12, "# ?/?"],
  [13, "# ??/??"],
  [14, "mm-dd-yy"],
  [15, "d-mmm-yy"],
  [16, "d-mmm"],
  [17, "mmm-yy"],
  [18, "h:mm AM/PM"],
  [19, "h:mm:ss AM/PM"],
  [20, "h:mm"],
  [21, "h:mm:ss"],
  [22, "m/d/yy h:mm"],
  [37, "#,##0_);(#,##0)"],
  [38, "#,##0_);[Red](#,##0)"],
  [39, "#,##0.00_);(#,##0.00)"],
  [40, "#,##0.00_);[Red](#,##0.00)"],
  [41, '_(* #,##0_);_(* \\(#,##0\\);_(* "-"_);_(@_)'],
  [42, '_("$"* #,##0_);_("$"* \\(#,##0\\);_("$"* "-"_);_(@_)'],
  [43, '_(* #,##0.00_);_(* \\(#,##0.00\\);_(* "-"??_);_(@_)'],
  [44, '_("$"* #,##0.00_);_("$"* \\(#,##0.00\\);_("$"* "-"??_);_(@_)'],
  [45, "mm:ss"],
  [46, "[h]:mm:ss"],
  [47, "mm:ss.0"],
  [48, "##0.0E+0"],
  [49, "@"],
]);

export interface Styles {
  /** The look that a cell's style number stands for; undefined where it has none of its own. The same object for the same number. */
  of(index: number): CellStyle | undefined;
  /** Whether the number of a cell with this style counts days. */
  isDate(index: number): boolean;
}

export function readStyles(xml: string | undefined, theme: readonly string[]): Styles {
  if (xml === undefined) return new StyleLists({ theme, indexed: standardPalette });
  const found = new StyleLists({ theme, indexed: paletteOf(xml) });
  walk(xml, found);
  return found;
}

/** A file may give the numbers other colours; that list stands behind those that use it. */
function paletteOf(xml: string): readonly string[] {
  if (!xml.includes("indexedColors")) return standardPalette;
  const own: string[] = [];
  walk(xml, {
    open: (name, attributes) => {
      if (name === "rgbColor") own.push(colorOf(attributes, { theme: [], indexed: [] }) ?? "#000000");
    },
  });
  return [...own, ...standardPalette.slice(own.length)];
}

interface Combination {
  readonly font: number;
  readonly fill: number;
  readonly border: number;
  readonly format: number;
  alignment?: Attributes;
}

class StyleLists implements Styles {
  private readonly formats = new Map(builtInFormats);
  private readonly fonts: CellStyle[] = [];
  private readonly fills: (string | undefined)[] = [];
  private readonly borders: NonNullable<CellStyle["borders"]>[] = [];
  private readonly combinations: Combination[] = [];
  private readonly made = new Map<number, CellStyle | undefined>();
  private list = "";
  private solid = false;
  private side: keyof NonNullable<CellStyle["borders"]> | undefined;

  constructor(private readonly palette: Palette) {}

  of(index: number): CellStyle | undefined {
    if (!this.made.has(index)) this.made.set(index, this.combined(index));
    return this.made.get(index);
  }

  isDate(index: number): boolean {
    return countsDays(this.formats.get(this.combinations[index]?.format ?? 0) ?? "");
  }

  open(name: string, attributes: Attributes, parent: string | undefined): void {
    if (parent === "styleSheet") this.list = name;
    const { list } = this;
    if (list === "numFmts" && name === "numFmt") this.formats.set(Number(attributes.numFmtId), attributes.formatCode ?? "General");
    else if (list === "fonts") this.openInFonts(name, attributes, parent);
    else if (list === "fills") this.openInFills(name, attributes, parent);
    else if (list === "borders") this.openInBorders(name, attributes, parent);
    else if (list === "cellXfs" && name === "xf") {
      const number = (value: string | undefined) => Number(value ?? 0);
      const { fontId, fillId, borderId, numFmtId } = attributes;
      this.combinations.push({ font: number(fontId), fill: number(fillId), border: number(borderId), format: number(numFmtId) });
    } else if (list === "cellXfs" && name === "alignment") this.combinations.at(-1)!.alignment = attributes;
  }

  private openInFonts(name: string, attributes: Attributes, parent: string | undefined): void {
    if (name === "font" && parent === "fonts") this.fonts.push({});
    const font = this.fonts.at(-1);
    if (!font || parent !== "font") return;
    if (name === "b") font.bold = isOn(attributes.val, true) || undefined;
    else if (name === "i") font.italic = isOn(attributes.val, true) || undefined;
    else if (name === "u") font.underline = attributes.val !== "none" || undefined;
    else if (name === "strike") font.strike = isOn(attributes.val, true) || undefined;
    else if (name === "name" && attributes.val) font.font = attributes.val;
    else if (name === "sz" && Number(attributes.val) > 0) font.size = Number(attributes.val);
    else if (name === "color") {
      const color = colorOf(attributes, this.palette);
      if (color && color !== "#000000") font.color = color;
    }
  }

  private openInFills(name: string, attributes: Attributes, parent: string | undefined): void {
    if (name === "fill" && parent === "fills") this.fills.push(undefined);
    else if (name === "patternFill") this.solid = attributes.patternType === "solid";
    else if (name === "fgColor" && this.solid && this.fills.length > 0) this.fills[this.fills.length - 1] = colorOf(attributes, this.palette);
  }

  private openInBorders(name: string, attributes: Attributes, parent: string | undefined): void {
    if (name === "border" && parent === "borders") this.borders.push({});
    const border = this.borders.at(-1);
    if (!border) return;
    if (parent === "border") {
      this.side = sides[name];
      const line = attributes.style && attributes.style !== "none" ? lineOf(attributes.style) : undefined;
      if (this.side && line) border[this.side] = { line };
    } else if (name === "color" && this.side && border[this.side]) {
      const color = colorOf(attributes, this.palette);
      if (color) border[this.side]!.color = color;
    }
  }

  private combined(index: number): CellStyle | undefined {
    const combination = this.combinations[index];
    if (!combination) return undefined;
    const style: CellStyle = { ...this.fonts[combination.font] };
    // The first two fills are none and a grey pattern, whatever the file says of them.
    const fill = combination.fill < 2 ? undefined : this.fills[combination.fill];
    if (fill) style.fill = fill;
    const format = this.formats.get(combination.format);
    if (format && format !== "General") style.format = format;
    const borders = this.borders[combination.border];
    if (borders && Object.keys(borders).length > 0) style.borders = borders;
    Object.assign(style, aligned(combination.alignment ?? {}));
    const given = Object.entries(style).filter(([, value]) => value !== undefined);
    return given.length > 0 ? Object.fromEntries(given) : undefined;
  }
}

const sides: Partial<Record<string, keyof NonNullable<CellStyle["borders"]>>> = {
  top: "top",
  bottom: "bottom",
  left: "left",
  right: "right",
  // The strict form names them for the direction of writing.
  start: "left",
  end: "right",
};

function aligned({ horizontal, vertical, wrapText }: Attributes): CellStyle {
  const style: CellStyle = {};
  if (horizontal === "left" || horizontal === "center" || horizontal === "right") style.horizontal = horizontal;
  if (horizontal === "centerContinuous") style.horizontal = "center";
  if (vertical === "top" || vertical === "bottom") style.vertical = vertical;
  if (vertical === "center") style.vertical = "middle";
  if (isOn(wrapText)) style.wrap = true;
  return style;
}

const plainLines: readonly string[] = ["thin", "medium", "thick", "double", "dashed", "dotted", "hair"] satisfies BorderLine[];

function lineOf(style: string): BorderLine {
  if (plainLines.includes(style)) return style as BorderLine;
  return style.startsWith("medium") ? "medium" : "dashed";
}
