/**
 * What a script for Google Sheets asks of the spreadsheet, recorded. This is no Google Sheet: it calculates nothing, and knows of a cell only
 * what was put there. It refuses every member that Google's own types lack, and every one that it does not play.
 */
import { readFileSync } from "node:fs";
import vm from "node:vm";
import ts from "typescript";
import { address, areaOf, type Area } from "../../src/sheet/references.ts";

/** What the stand-in itself asks of the objects that it hands out. */
interface Named {
  getName(): string;
}
interface Standing {
  getSheet(): Named;
}
interface Placed {
  getA1Notation(): string;
}

/** Members of the interfaces in Google's types, by interface. */
const members = new Map<string, Set<string>>();
for (const file of ["spreadsheet", "properties", "base", "charts", "html", "cache"]) {
  const path = `node_modules/@types/google-apps-script/google-apps-script.${file}.d.ts`;
  const visit = (node: ts.Node): void => {
    if (ts.isInterfaceDeclaration(node)) {
      const known = members.get(node.name.text) ?? new Set();
      for (const member of node.members) if (member.name) known.add(member.name.getText());
      members.set(node.name.text, known);
    } else if (ts.isEnumDeclaration(node)) {
      members.set(node.name.text, new Set(node.members.map((member) => member.name.getText())));
    }
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile(path, readFileSync(path, "utf8"), ts.ScriptTarget.Latest, true));
}

/** The object, refusing what the interface of this name does not have, and what is not played here. */
function typed<T extends object>(name: string, played: T): T {
  const known = members.get(name);
  if (!known) throw new Error(`Google's types have no ${name}.`);
  return new Proxy(played, {
    get(target, member) {
      if (typeof member !== "string") return Reflect.get(target, member);
      if (!known.has(member)) throw new Error(`${name} has no member ${member} in Google's types.`);
      if (!(member in target)) throw new Error(`${name}.${member} is not played by the stand-in.`);
      return Reflect.get(target, member);
    },
  });
}

export interface RecordedCell {
  value?: unknown;
  formula?: string;
  format?: string;
  validation?: Readonly<Record<string, unknown>>;
  look: Record<string, unknown>;
}

export interface RecordedSheet {
  readonly name: string;
  readonly cells: Map<string, RecordedCell>;
  readonly merged: string[];
  readonly widths: Map<number, number>;
  readonly charts: Record<string, unknown>[];
  hidden?: readonly [column: number, count: number];
  frozenRows?: number;
  rows: number;
  columns: number;
}

export class RecordedBook {
  readonly sheets: RecordedSheet[] = [];
  readonly names = new Map<string, string>();
  readonly toasts: string[] = [];
  readonly properties = new Map<string, string>();
  readonly menus: { readonly name: string; readonly items: readonly (readonly [label: string, functionName: string])[] }[] = [];
  active = "";
  sidebar = false;
  readonly dialogs: string[] = [];
  readonly pages: string[] = [];
  /** What the document's cache holds of refusals. */
  problems: string | null = null;
  flushes = 0;
  private readonly sheetsOfNames = new Map<string, RecordedSheet>();
  private readonly objects = new Map<RecordedSheet, Named>();

  constructor(names: readonly string[] = ["Sheet1"]) {
    for (const name of names) this.add(name);
  }

  /** Runs the built script with nothing but the services of the host, and answers its functions. */
  run(code: string): Record<string, () => unknown> {
    const context = vm.createContext(Object.assign(Object.create(null) as object, this.services()), { codeGeneration: { strings: false, wasm: false } });
    vm.runInContext(code, context);
    return context as Record<string, () => unknown>;
  }

  sheet(name: string): RecordedSheet {
    const found = this.sheets.find((sheet) => sheet.name === name);
    if (!found) throw new Error(`There is no sheet ${name}.`);
    return found;
  }

  private add(name: string): RecordedSheet {
    if (this.sheets.some((sheet) => sheet.name === name)) throw new Error(`A sheet with the name "${name}" already exists. Please enter another name.`);
    const sheet: RecordedSheet = { name, cells: new Map(), merged: [], widths: new Map(), charts: [], rows: 1000, columns: 26 };
    this.sheets.push(sheet);
    return sheet;
  }

  private services(): object {
    const book = this.spreadsheet();
    const styles = { SOLID: "SOLID", SOLID_MEDIUM: "SOLID_MEDIUM" };
    const properties = typed("Properties", {
      getProperty: (key: string) => this.properties.get(key) ?? null,
      setProperty: (key: string, value: string) => void this.properties.set(key, value),
    });
    const cache = typed("Cache", { get: () => this.problems });
    const output: object = typed("HtmlOutput", { setTitle: () => output, setWidth: () => output, setHeight: () => output });
    return {
      SpreadsheetApp: typed("SpreadsheetApp", {
        getActiveSpreadsheet: () => book,
        newDataValidation: () => validationBuilder({}),
        flush: () => void this.flushes++,
        BorderStyle: typed("BorderStyle", styles),
        getUi: () => typed("Ui", { createMenu: (name: string) => this.menu(name), showSidebar: () => void (this.sidebar = true), showModalDialog: (_: object, title: string) => void this.dialogs.push(title) }),
      }),
      PropertiesService: typed("PropertiesService", { getDocumentProperties: () => properties }),
      CacheService: typed("CacheService", { getDocumentCache: () => cache }),
      HtmlService: typed("HtmlService", {
        createHtmlOutput: (html: string) => {
          this.pages.push(html);
          return output;
        },
        createHtmlOutputFromFile: (name: string) => {
          if (name !== "Sidebar") throw new Error(`No HTML file named ${name} was found.`);
          return output;
        },
      }),
      Charts: typed("Charts", { ChartType: typed("ChartType", { SCATTER: "SCATTER" }) }),
    };
  }

  private menu(name: string): unknown {
    const items: (readonly [string, string])[] = [];
    const menu: object = typed("Menu", {
      addItem: (label: string, functionName: string) => (items.push([label, functionName]), menu),
      addSubMenu: () => menu,
      addToUi: () => undefined,
    });
    this.menus.push({ name, items });
    return menu;
  }

  private spreadsheet(): object {
    return typed("Spreadsheet", {
      getSheets: () => this.sheets.map((sheet) => this.object(sheet)),
      getNamedRanges: () => [...this.names.keys()].map((name) => typed("NamedRange", { getName: () => name, getRange: () => this.namedRange(name) })),
      setNamedRange: (name: string, range: Placed & Standing) => {
        this.names.set(name, range.getA1Notation());
        this.sheetsOfNames.set(name, this.sheet(range.getSheet().getName()));
      },
      insertSheet: (name: string) => this.object(this.add(name)),
      deleteSheet: (sheet: Named) => {
        this.sheets.splice(this.sheets.findIndex((one) => one.name === sheet.getName()), 1);
        for (const [name, own] of this.sheetsOfNames) if (own.name === sheet.getName()) this.names.delete(name);
      },
      getActiveSheet: () => this.object(this.sheet(this.active || this.sheets[0]!.name)),
      setActiveSheet: (sheet: Named) => ((this.active = sheet.getName()), sheet),
      toast: (words: string) => void this.toasts.push(words),
    });
  }

  private namedRange(name: string): object {
    const sheet = this.sheetsOfNames.get(name)!;
    return rangeOf(sheet, this.names.get(name)!, () => this.object(sheet));
  }

  private object(sheet: RecordedSheet): Named {
    const known = this.objects.get(sheet);
    if (known) return known;
    const made = typed("Sheet", {
      getName: () => sheet.name,
      getRange: (text: string) => rangeOf(sheet, text, () => this.object(sheet)),
      getDataRange: () => rangeOf(sheet, usedArea(sheet), () => this.object(sheet)),
      getMaxRows: () => sheet.rows,
      getMaxColumns: () => sheet.columns,
      insertRowsAfter: (_: number, count: number) => void (sheet.rows += count),
      insertColumnsAfter: (_: number, count: number) => void (sheet.columns += count),
      setColumnWidth: (column: number, width: number) => void sheet.widths.set(column, width),
      getColumnWidth: (column: number) => sheet.widths.get(column) ?? 100,
      setRowHeight: () => undefined,
      setHiddenGridlines: () => undefined,
      hideColumns: (column: number, count: number) => void (sheet.hidden = [column, count]),
      setFrozenRows: (rows: number) => void (sheet.frozenRows = rows),
      newChart: () => chartBuilder({ ranges: [] as string[] }),
      insertChart: (chart: { readonly recorded: Record<string, unknown> }) => void sheet.charts.push(chart.recorded),
    });
    this.objects.set(sheet, made);
    return made;
  }
}

function validationBuilder(recorded: Record<string, unknown>): unknown {
  const noting = (key: string) => (...given: unknown[]) => ((recorded[key] = given), builder);
  const builder: object = typed("DataValidationBuilder", {
    setAllowInvalid: noting("allowInvalid"),
    setHelpText: noting("words"),
    requireValueInList: noting("list"),
    requireNumberBetween: noting("between"),
    requireFormulaSatisfied: noting("formula"),
    build: () => recorded,
  });
  return builder;
}

function chartBuilder(recorded: { readonly ranges: string[] } & Record<string, unknown>): unknown {
  const builder: object = typed("EmbeddedChartBuilder", {
    setChartType: (type: string) => ((recorded.type = type), builder),
    addRange: (range: Placed) => (recorded.ranges.push(range.getA1Notation()), builder),
    setPosition: (...place: number[]) => ((recorded.position = place), builder),
    setOption: (option: string, value: unknown) => ((recorded[option] = value), builder),
    build: () => ({ recorded }),
  });
  return builder;
}

function usedArea({ cells }: RecordedSheet): string {
  const places = [...cells.keys()].map((at) => areaOf(at)!);
  return `A1:${address(Math.max(0, ...places.map(({ bottom }) => bottom)), Math.max(0, ...places.map(({ right }) => right)))}`;
}

function rangeOf(sheet: RecordedSheet, text: string, owner: () => Named): object {
  const area = areaOf(text);
  if (!area) throw new Error(`Range not found: ${text}`);
  if (area.bottom >= sheet.rows || area.right >= sheet.columns) throw new Error(`The range ${text} lies beyond the sheet.`);
  const places = placesIn(area);
  const cellAt = (at: string): RecordedCell => {
    const known = sheet.cells.get(at) ?? { look: {} };
    sheet.cells.set(at, known);
    return known;
  };
  const all = (change: (cell: RecordedCell) => void) => (places.flat().forEach((at) => change(cellAt(at))), range);
  const look = (key: string) => (value: unknown) => all((cell) => (cell.look[key] = value));
  const range: object = typed("Range", {
    getA1Notation: () => text.replaceAll("$", ""),
    setValue: (value: unknown) => all((cell) => (cell.value = value)),
    setValues: (values: unknown[][]) => {
      if (values.length !== places.length || values[0]!.length !== places[0]!.length) throw new Error("The number of rows in the data does not match the number of rows in the range.");
      places.forEach((line, row) => line.forEach((at, column) => (cellAt(at).value = values[row]![column])));
      return range;
    },
    setFormula: (formula: string) => all((cell) => (cell.formula = formula)),
    getFormulas: () => places.map((line) => line.map((at) => sheet.cells.get(at)?.formula ?? "")),
    getCell: (row: number, column: number) => rangeOf(sheet, places[row - 1]![column - 1]!, owner),
    getSheet: owner,
    getValue: () => sheet.cells.get(places[0]![0]!)?.value ?? "",
    getValues: () => places.map((line) => line.map((at) => sheet.cells.get(at)?.value ?? "")),
    clearContent: () => all((cell) => {
      delete cell.value;
      delete cell.formula;
    }),
    getDisplayValue: () => String(sheet.cells.get(places[0]![0]!)?.value ?? ""),
    setNumberFormat: (format: string) => all((cell) => (cell.format = format)),
    setDataValidation: (rule: Record<string, unknown>) => all((cell) => (cell.validation = rule)),
    setFontWeight: look("weight"),
    setFontStyle: look("style"),
    setFontSize: look("size"),
    setFontColor: look("color"),
    setBackground: look("fill"),
    setWrap: look("wrap"),
    setVerticalAlignment: look("vertical"),
    setHorizontalAlignment: look("horizontal"),
    setBorder: (...sides: unknown[]) => look("border")(sides),
    merge: () => (sheet.merged.push(text), range),
  });
  return range;
}

function placesIn({ top, bottom, left, right }: Area): string[][] {
  return Array.from({ length: bottom - top + 1 }, (_, row) => Array.from({ length: right - left + 1 }, (__, column) => address(top + row, left + column)));
}
