/** The filter of a sheet or a table in its part (ECMA-376 part 1, 18.3.2). */
import { areaOf, referenceTo } from "../sheet/references";
import type { Filter, FilterColumn } from "./workbook";
import { escaped, isOn, type Attributes } from "./xml";

/** Reads a filter as its part is walked through; `owner` is the element that it is the filter of. */
export class FilterReader {
  private filter: Filter | undefined;
  private column: { -readonly [Key in keyof FilterColumn]: FilterColumn[Key] } | undefined;
  private known = true;
  private inside = false;

  constructor(private readonly owner: string) {}

  open(name: string, attributes: Attributes, parent: string | undefined): void {
    if (name === "autoFilter" && parent === this.owner) {
      const area = areaOf(attributes.ref ?? "");
      this.inside = true;
      if (area) this.filter = { area, columns: [] };
      return;
    }
    if (!this.inside) return;
    if (name === "filterColumn") this.openColumn(attributes);
    else if (parent === "filterColumn" || parent === "filters" || parent === "customFilters") this.openRule(name, attributes);
  }

  close(name: string): void {
    if (name === "autoFilter") this.inside = false;
  }

  /** Undefined where there is none, or one with rules that this page does not know. */
  finished(): Filter | undefined {
    return this.known ? this.filter : undefined;
  }

  private openColumn({ colId }: Attributes): void {
    if (!this.filter) return;
    this.column = { column: this.filter.area.left + Number(colId) };
    this.filter.columns.push(this.column);
    if (!(this.column.column <= this.filter.area.right)) this.known = false;
  }

  private openRule(name: string, attributes: Attributes): void {
    const { column } = this;
    if (!column) return;
    if (name === "filters") {
      column.values = [];
      if (isOn(attributes.blank)) column.blanks = true;
    } else if (name === "filter") column.values = [...(column.values ?? []), attributes.val ?? ""];
    else if (name === "customFilters") {
      column.conditions = [];
      if (isOn(attributes.and)) column.all = true;
    } else if (name === "customFilter") {
      const { operator, val = "" } = attributes;
      column.conditions = [...(column.conditions ?? []), { ...(operator !== undefined && { operator }), value: val }];
    } else if (name !== "extLst") this.known = false;
  }
}

export function filterXml({ area, columns }: Filter, prefix: string): string {
  const ref = referenceTo(area);
  const inner = columns.map((column) => columnXml(column, column.column - area.left, prefix)).join("");
  return inner === "" ? `<${prefix}autoFilter ref="${ref}"/>` : `<${prefix}autoFilter ref="${ref}">${inner}</${prefix}autoFilter>`;
}

function columnXml({ values, blanks, conditions, all }: FilterColumn, place: number, prefix: string): string {
  const rules = conditions
    ? `<${prefix}customFilters${all ? ' and="1"' : ""}>${conditions
        .map(({ operator, value }) => `<${prefix}customFilter${operator === undefined ? "" : ` operator="${operator}"`} val="${escaped(value)}"/>`)
        .join("")}</${prefix}customFilters>`
    : `<${prefix}filters${blanks ? ' blank="1"' : ""}>${(values ?? []).map((value) => `<${prefix}filter val="${escaped(value)}"/>`).join("")}</${prefix}filters>`;
  return `<${prefix}filterColumn colId="${place}">${rules}</${prefix}filterColumn>`;
}
