/** Formats, validation and the page set-up of Excel's API: what is set is kept with the cells, under the name of the property. */
import type { Area } from "./address.ts";
import type { Settings, Sheet } from "./book.ts";
import { ApiError, ApiObject } from "./rich-api.ts";

/** Where settings go: one area or several of a sheet. */
export interface Place {
  readonly sheet: Sheet;
  readonly areas: readonly Area[];
}

function put({ sheet, areas }: Place, property: string, value: unknown): void {
  for (const area of areas) sheet.set(area, property, value);
}

/** What the first cell has: enough for reading back what one setter wrote. */
function get({ sheet, areas }: Place, property: string): unknown {
  const [area] = areas;
  return area && sheet.settings.get(cellOf(area))?.[property];
}

function cellOf({ row, column }: Area): string {
  let letters = "";
  for (let rest = column + 1; rest > 0; rest = Math.floor((rest - 1) / 26)) letters = String.fromCharCode(65 + ((rest - 1) % 26)) + letters;
  return `${letters}${row + 1}`;
}

export class RangeFormat extends ApiObject {
  readonly apiName = "RangeFormat";
  readonly font: RangeFont;
  readonly fill: RangeFill;
  readonly borders: RangeBorders;

  constructor(private readonly place: Place) {
    super();
    this.font = new RangeFont(place);
    this.fill = new RangeFill(place);
    this.borders = new RangeBorders(place);
  }

  get wrapText(): unknown {
    return get(this.place, "wrapText");
  }

  set wrapText(value: unknown) {
    put(this.place, "wrapText", value);
  }

  get horizontalAlignment(): unknown {
    return get(this.place, "horizontalAlignment");
  }

  set horizontalAlignment(value: unknown) {
    if (!["General", "Left", "Center", "Right"].includes(String(value))) throw new ApiError("InvalidArgument", `There is no alignment “${String(value)}”.`);
    put(this.place, "horizontalAlignment", value);
  }

  get verticalAlignment(): unknown {
    return get(this.place, "verticalAlignment");
  }

  set verticalAlignment(value: unknown) {
    if (!["Top", "Center", "Bottom"].includes(String(value))) throw new ApiError("InvalidArgument", `There is no alignment “${String(value)}”.`);
    put(this.place, "verticalAlignment", value);
  }

  get columnWidth(): number {
    return this.place.sheet.columnWidths.get(this.place.areas[0]!.column) ?? 48;
  }

  set columnWidth(points: number) {
    for (const { column, columns } of this.place.areas) {
      for (let index = column; index < column + columns; index++) this.place.sheet.columnWidths.set(index, points);
    }
  }

  get rowHeight(): number {
    return this.place.sheet.rowHeights.get(this.place.areas[0]!.row) ?? 15;
  }

  set rowHeight(points: number) {
    for (const { row, rows } of this.place.areas) {
      for (let index = row; index < row + rows; index++) this.place.sheet.rowHeights.set(index, points);
    }
  }
}

/** An object that only sets properties of cells, each kept under its prefix and name. */
abstract class CellPart extends ApiObject {
  constructor(protected readonly place: Place) {
    super();
  }
}

class RangeFont extends CellPart {
  readonly apiName = "RangeFont";
  get bold(): unknown {
    return get(this.place, "font.bold");
  }
  set bold(value: unknown) {
    put(this.place, "font.bold", value);
  }
  get italic(): unknown {
    return get(this.place, "font.italic");
  }
  set italic(value: unknown) {
    put(this.place, "font.italic", value);
  }
  get size(): unknown {
    return get(this.place, "font.size");
  }
  set size(value: unknown) {
    put(this.place, "font.size", value);
  }
  get color(): unknown {
    return get(this.place, "font.color");
  }
  set color(value: unknown) {
    put(this.place, "font.color", value);
  }
}

class RangeFill extends CellPart {
  readonly apiName = "RangeFill";
  get color(): unknown {
    return get(this.place, "fill.color");
  }
  set color(value: unknown) {
    put(this.place, "fill.color", value);
  }
}

const edges = ["EdgeTop", "EdgeBottom", "EdgeLeft", "EdgeRight", "InsideVertical", "InsideHorizontal"];

class RangeBorders extends CellPart {
  readonly apiName = "RangeBorderCollection";

  getItem(edge: unknown): RangeBorder {
    if (!edges.includes(String(edge))) throw new ApiError("InvalidArgument", `There is no border “${String(edge)}”.`);
    return new RangeBorder(this.place, `borders.${String(edge)}`);
  }
}

class RangeBorder extends CellPart {
  readonly apiName = "RangeBorder";

  constructor(
    place: Place,
    private readonly edge: string,
  ) {
    super(place);
  }

  get style(): unknown {
    return get(this.place, `${this.edge}.style`);
  }
  set style(value: unknown) {
    put(this.place, `${this.edge}.style`, value);
  }
  get color(): unknown {
    return get(this.place, `${this.edge}.color`);
  }
  set color(value: unknown) {
    put(this.place, `${this.edge}.color`, value);
  }
}

export class DataValidation extends CellPart {
  readonly apiName = "DataValidation";

  get rule(): unknown {
    return get(this.place, "validation.rule") ?? {};
  }

  set rule(rule: unknown) {
    const { list, decimal, wholeNumber } = rule as { list?: { source: string }; decimal?: object; wholeNumber?: object };
    if ([list, decimal, wholeNumber].filter(Boolean).length !== 1) throw new ApiError("InvalidArgument", "A validation has one rule; of those the stand-in knows lists, decimals and whole numbers.");
    if (list && list.source.length > 255) throw new ApiError("InvalidArgument", "A list of choices has at most 255 characters.");
    put(this.place, "validation.rule", rule);
  }

  get errorAlert(): unknown {
    return get(this.place, "validation.errorAlert");
  }

  set errorAlert(alert: unknown) {
    const { title, message } = alert as { title: string; message: string };
    // Excel's own limits.
    if (title.length > 32 || message.length > 255) throw new ApiError("InvalidArgument", "The title or the message of the alert is too long.");
    put(this.place, "validation.errorAlert", alert);
  }
}

export class PageLayout extends ApiObject {
  readonly apiName = "PageLayout";

  constructor(private readonly page: Settings) {
    super();
  }

  get orientation(): unknown {
    return this.page.orientation ?? "Portrait";
  }
  set orientation(value: unknown) {
    this.page.orientation = value;
  }
  get zoom(): unknown {
    return this.page.zoom;
  }
  set zoom(value: unknown) {
    this.page.zoom = value;
  }
  get centerHorizontally(): unknown {
    return this.page.centerHorizontally ?? false;
  }
  set centerHorizontally(value: unknown) {
    this.page.centerHorizontally = value;
  }

  setPrintArea(area: unknown): void {
    this.page.printArea = area;
  }

  setPrintTitleRows(rows: unknown): void {
    if (!/^\$\d+:\$\d+$/.test(String(rows))) throw new ApiError("InvalidArgument", `“${String(rows)}” are no whole rows.`);
    this.page.printTitleRows = rows;
  }
}

export class FreezePanes extends ApiObject {
  readonly apiName = "WorksheetFreezePanes";

  constructor(private readonly sheet: Sheet) {
    super();
  }

  freezeRows(count: number): void {
    this.sheet.frozenRows = count;
  }
}
