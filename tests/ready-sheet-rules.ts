/** What every ready sheet keeps to, in any units and with any figures. Each rule answers what breaks it. */
import { isFunctionName, partsOf } from "../src/sheet/formula-text.ts";
import { areaOf, moved, placeOf, type Area } from "../src/sheet/references.ts";
import { spelled } from "../src/sheet/spelling.ts";
import { chosenUnit, measureNames, type UnitChoice } from "../src/sheet/unit-choice.ts";
import { unitsOf } from "../shared/units.ts";
import { unitFormula } from "../src/ready-sheets/sheet-builder.ts";
import type { DescribedCell, DescribedColumn, SheetDescription } from "../src/ready-sheets/sheet-description.ts";

type Rule = (sheet: SheetDescription, units: UnitChoice) => string[];

interface Part {
  readonly at: string;
  readonly area: Area;
  readonly formula?: string;
}

function areaAt(at: string, rows = 1, columns = 1): Area {
  const { row, column } = placeOf(at)!;
  return { top: row, left: column, bottom: row + rows - 1, right: column + columns - 1 };
}

function meet(a: Area, b: Area): boolean {
  return a.top <= b.bottom && b.top <= a.bottom && a.left <= b.right && b.left <= a.right;
}

/** Everything that fills cells, with its formula where it has one. */
function partsOfSheet({ cells, tables, spills = {} }: SheetDescription): Part[] {
  return [
    ...Object.entries(cells).map(([at, { formula }]) => ({ at, area: areaAt(at), formula })),
    ...tables.map(({ at, rows, columns }) => ({ at, area: areaAt(at, rows + 1, columns.length) })),
    ...Object.entries(spills).map(([at, { rows, formats, formula }]) => ({ at, area: areaAt(at, rows, formats.length), formula })),
  ];
}

function formulasOf(sheet: SheetDescription): { at: string; formula: string }[] {
  return partsOfSheet(sheet).flatMap(({ at, formula }) => (formula === undefined ? [] : [{ at, formula }]));
}

/** Our functions inside one another in a formula. */
function nested(formula: string): number {
  const parts = partsOf(formula);
  const open: boolean[] = [];
  let deepest = 0;
  parts.forEach((part, index) => {
    if (part.text === "(") {
      open.push(isFunctionName(parts, index - 1) && parts[index - 1]!.text.startsWith(spelled("")));
      deepest = Math.max(deepest, open.filter(Boolean).length);
    } else if (part.text === ")") open.pop();
  });
  return deepest;
}

/** The areas that a formula refers to: addresses, ranges and names of cells. */
function referred(formula: string, { cells }: SheetDescription): Area[] {
  const parts = partsOf(formula);
  return parts.flatMap((part, index) => {
    const named = part.kind === "name" ? Object.entries(cells).find(([, { name }]) => name === part.text) : undefined;
    if (named) return [areaAt(named[0])];
    if (part.kind !== "reference" || parts[index - 1]?.text === ":") return [];
    // Beyond a colon there may be an address or what finds one, as in A9:INDEX(A9:A99,5,1).
    const range = parts[index + 1]?.text === ":" ? areaOf(`${part.text}:${parts[index + 2]!.text}`) : undefined;
    return [range ?? areaOf(part.text)!];
  });
}

const nothingCovered: Rule = (sheet) => {
  const parts = partsOfSheet(sheet);
  return parts.flatMap((one, index) => parts.slice(index + 1).flatMap((other) => (meet(one.area, other.area) ? [`${one.at} and ${other.at} overlap`] : [])));
};

/** Microsoft, "Excel specifications and limits": 8,192 characters a formula, 255 a text in a formula, 31 a sheet's name. */
const withinExcel: Rule = (sheet) => [
  ...formulasOf(sheet).flatMap(({ at, formula }) => {
    const long = partsOf(formula).filter(({ kind, text }) => kind === "text" && text.length > 257);
    return [...(formula.length > 8192 ? [`${at} is too long`] : []), ...long.map(({ text }) => `${at} holds a text too long: ${text}`)];
  }),
  ...Object.entries(sheet.cells).flatMap(([at, { value, allowed }]) => [
    ...(typeof value === "string" && /^[=+\-@]/.test(value) ? [`${at} would be read as a formula`] : []),
    ...((allowed?.words.length ?? 0) > 255 || (allowed?.choices?.join(",").length ?? 0) > 255 ? [`${at} has words too long beside it`] : []),
  ]),
  ...(sheet.name.length > 31 ? ["its name is too long"] : []),
];

/** Excel takes half a second for each level of functions that wait for one another. What refers to nothing is calculated once, at the start. */
const chainedTwiceAtMost: Rule = (sheet) => {
  const parts = partsOfSheet(sheet).filter(({ formula }) => formula === undefined || referred(formula, sheet).length > 0 || formula.includes("["));
  const calculated = parts.filter(({ formula }) => formula !== undefined);
  const depths = new Map<Part, number>();
  const depthOf = (part: Part): number => {
    const known = depths.get(part);
    if (known !== undefined) return known;
    // Asked for again meanwhile, it refers to itself.
    depths.set(part, 0);
    const before = referred(part.formula!, sheet).flatMap((area) => calculated.filter((other) => other !== part && meet(other.area, area)));
    const depth = nested(part.formula!) + Math.max(0, ...before.map(depthOf));
    depths.set(part, depth);
    return depth;
  };
  return calculated.filter((part) => depthOf(part) > 2).map(({ at }) => `${at} waits for more than two levels of functions`);
};

/** So that rows can be inserted. */
const tablesByTheirColumns: Rule = (sheet) => {
  const bodies = sheet.tables.map(({ at, rows, columns }) => areaAt(at, rows + 1, columns.length));
  return formulasOf(sheet)
    .filter(({ formula }) => referred(formula, sheet).some((area) => bodies.some((body) => meet(body, area))))
    .map(({ at }) => `${at} refers into a table by address`);
};

const methodUnderVerdicts: Rule = ({ cells, purpose }) => {
  const all = Object.values(cells);
  const method = all.some(({ role, value }) => role === "footnote" && /^Methods?:/.test(String(value)));
  return [...(all.some(({ role }) => role === "verdict") && !method ? ["its verdict names no method"] : []), ...(/^[^.]+\.$/.test(purpose) ? [] : ["its purpose is no sentence"])];
};

/** Its unit stands to the right of an input, over its column, or over its heading. */
const unitsBesideInputs: Rule = (sheet) => {
  const { cells, tables } = sheet;
  const near = (at: string): string[] => {
    const right = [1, 2, 3, 4].map((columns) => moved(at, 0, columns));
    const above = Array.from({ length: Math.min(4, placeOf(at)!.row) }, (_, rows) => moved(at, -1 - rows, 0));
    return [...right, ...above];
  };
  const shown = (places: readonly string[], { measure, unit }: Pick<DescribedCell, "measure" | "unit">): boolean =>
    places.some((at) => cells[at]?.role === "unit" && (measure ? cells[at]!.formula === unitFormula(measure) : cells[at]!.value === unit));
  const lacking = (at: string, places: readonly string[], input: DescribedCell | DescribedColumn) =>
    (input.measure ?? input.unit) === undefined || input.unit === "" || shown(places, input) ? [] : [`${at} has no ${input.measure ?? input.unit} beside it`];
  return [
    ...Object.entries(cells).flatMap(([at, cell]) => (cell.role === "input" ? lacking(at, near(at), cell) : [])),
    ...tables.flatMap(({ at, columns }) => columns.flatMap((column, index) => lacking(moved(at, 0, index), [moved(at, -1, index)], column))),
  ];
};

const chartsOverCells: Rule = (sheet) => {
  const parts = partsOfSheet(sheet);
  const filled = (at: string) => parts.some(({ area }) => meet(area, areaAt(at)));
  return (sheet.charts ?? []).flatMap(({ words, xTitle, yTitle, series }) => {
    const drawn = series.flatMap(({ x, y }) => [x, y]).filter((reference) => !reference.includes("["));
    return [words, xTitle, yTitle, ...drawn.map((reference) => reference.split(":")[0]!)].filter((at) => !filled(at)).map((at) => `a chart reads ${at}, which is empty`);
  });
};

/** Sentences and limits speak no unit of a measure but the workbook's own. */
const noOtherUnit: Rule = (sheet, units) => {
  const limits = [...Object.values(sheet.cells), ...sheet.tables.flatMap(({ columns }) => columns)].flatMap(({ allowed }) => (allowed ? [allowed.words] : []));
  const texts = formulasOf(sheet).flatMap(({ formula }) => partsOf(formula).filter(({ kind }) => kind === "text").map(({ text }) => text.slice(1, -1)));
  const words = [...limits, ...texts];
  const own = new Set(measureNames.flatMap((measure) => [chosenUnit(units, measure).symbol, chosenUnit(units, measure).saidIn?.symbol]));
  const others = new Set(measureNames.flatMap((measure) => Object.values(unitsOf(measure)).map(({ symbol }) => symbol)).filter((symbol) => !own.has(symbol)));
  return [...others].flatMap((symbol) => words.filter((text) => isSaid(symbol, text)).map((text) => `“${text}” speaks of ${symbol}`));
};

function isSaid(symbol: string, text: string): boolean {
  const plain = symbol.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
  return new RegExp(`(^ |\\d ?)${plain}($|[\\s.,;)])`).test(text);
}

export const rules: Readonly<Record<string, Rule>> = {
  "puts nothing over anything else": nothingCovered,
  "keeps to Excel's limits and says nothing that Excel would read as a formula": withinExcel,
  "chains our functions at most two deep": chainedTwiceAtMost,
  "refers to its tables by their columns": tablesByTheirColumns,
  "names a method under every verdict": methodUnderVerdicts,
  "shows the unit of every input": unitsBesideInputs,
  "has words for each chart, and titles and numbers in cells that exist": chartsOverCells,
  "speaks the units of the workbook": noOtherUnit,
};
