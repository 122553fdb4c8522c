/**
 * What is wrong: a formula counts as giving its own cell only, so the order of the calculation does not put a formula that spills before one
 * that reads a cell it fills. A second pass over the spilled areas is meant to put that right, but leaves out every formula that itself
 * spills, and every one that reads the anchor of a spill.
 * Nor are the readers of a filled cell told when the formula that filled it is replaced.
 * How it shows: in a chain of spilled results, cells lag one edit behind.
 * Here a formula gives the area that it filled last, or has filled in this calculation; further passes run only for areas whose shape has
 * changed, leave out nothing, and end when no shape changes.
 */
import { ObjectMatrix, type Injector, type IRange } from "@univerjs/core";
import {
  CELL_INVERTED_INDEX_CACHE,
  FormulaDataModel,
  FORMULA_REF_TO_ARRAY_CACHE,
  ICalculateFormulaService,
  IDependencyManagerService,
  IFormulaCurrentConfigService,
  IFormulaRuntimeService,
} from "@univerjs/engine-formula";

interface SheetRange {
  readonly unitId: string;
  readonly sheetId: string;
  readonly range: IRange;
}

type Rows<T> = Record<string, Record<string, T | null | undefined> | null | undefined>;
/** The areas of spilled results by workbook, sheet, row and column of their anchors. */
type Areas = Record<string, Record<string, Rows<IRange> | null | undefined> | null | undefined>;

/** What is used here of the engine's services, which do not declare all of it. */
interface Dependencies {
  searchDependency(ranges: SheetRange[], except?: Set<number>): Set<number>;
}
interface Given {
  load(config: { dirtyRanges: SheetRange[] }): void;
  getArrayFormulaRange(): Areas;
  loadDirtyRangesAndExcludedCell(ranges: SheetRange[], excluded: object): void;
  _forceCalculate?: boolean;
}
interface Running {
  readonly currentUnitId: string;
  readonly currentSubUnitId: string;
  readonly currentRow: number;
  readonly currentColumn: number;
  getUnitArrayFormula(): Areas;
  getRuntimeArrayFormulaCellData(): Record<string, Record<string, ObjectMatrix<unknown> | null | undefined> | null | undefined>;
  setRuntimeData(result: unknown): void;
}
interface Calculation {
  _executeStep(): Promise<unknown>;
  _apply(again?: boolean): Promise<{ arrayFormulaRange: Areas } | undefined>;
}

/** A chain of spills settles in as many passes as it has members whose shapes follow from one another; a circle of them never does. */
const mostPasses = 20;

export function followSpills(injector: Injector): void {
  const given = injector.get(IFormulaCurrentConfigService) as unknown as Given;
  const running = injector.get(IFormulaRuntimeService) as unknown as Running;
  const areasOfAnchor = (unitId: string, sheetId: string, { startRow, startColumn }: IRange) =>
    [given.getArrayFormulaRange(), running.getUnitArrayFormula()].flatMap((areas) => areas?.[unitId]?.[sheetId]?.[startRow]?.[startColumn] ?? []);
  findReadersOfAreas(injector.get(IDependencyManagerService) as unknown as Dependencies, areasOfAnchor);
  tellReadersOfReplacedFormulas(injector.get(FormulaDataModel), given);
  forgetEarlierPasses(running);
  repeatUntilSettled(injector.get(ICalculateFormulaService) as unknown as Calculation, given);
}

/** Who reads a formula's cell is found by the area that the formula fills. */
function findReadersOfAreas(dependencies: Dependencies, areasOfAnchor: (unitId: string, sheetId: string, cell: IRange) => IRange[]): void {
  const search = dependencies.searchDependency;
  dependencies.searchDependency = function (ranges, except) {
    const wider = ranges.flatMap((item) => {
      const { unitId, sheetId, range } = item;
      const isCell = range.startRow === range.endRow && range.startColumn === range.endColumn;
      const areas = isCell ? areasOfAnchor(unitId, sheetId, range) : [];
      return [item, ...areas.map((area) => ({ unitId, sheetId, range: area }))];
    });
    return search.call(this, wider, except);
  };
}

/** The engine forgets the area of a formula as soon as its cell is written to, before it looks for the readers. */
function tellReadersOfReplacedFormulas(model: FormulaDataModel, given: Given): void {
  const left: SheetRange[] = [];
  const forget = model.updateArrayFormulaRange;
  model.updateArrayFormulaRange = function (unitId, sheetId, cellValue) {
    const anchors = (this.getArrayFormulaRange() as Areas)[unitId]?.[sheetId];
    new ObjectMatrix(cellValue).forValue((row, column) => {
      const area = anchors?.[row]?.[column];
      if (area) left.push({ unitId, sheetId, range: { ...area } });
    });
    return forget.call(this, unitId, sheetId, cellValue);
  };
  const load = given.load;
  given.load = function (config) {
    load.call(this, { ...config, dirtyRanges: [...config.dirtyRanges, ...left.splice(0)] });
  };
}

/** What a formula filled in an earlier pass of the same calculation. */
function forgetEarlierPasses(running: Running): void {
  const set = running.setRuntimeData;
  running.setRuntimeData = function (result) {
    const { currentUnitId: unitId, currentSubUnitId: sheetId, currentRow: row, currentColumn: column } = this;
    const line = this.getUnitArrayFormula()[unitId]?.[sheetId]?.[row];
    const area = line?.[column];
    const filled = this.getRuntimeArrayFormulaCellData()[unitId]?.[sheetId];
    if (line && area && filled?.getValue(row, column)) {
      for (let down = area.startRow; down <= area.endRow; down++) {
        for (let across = area.startColumn; across <= area.endColumn; across++) filled.realDeleteValue(down, across);
      }
      Reflect.deleteProperty(line, column);
    }
    set.call(this, result);
  };
}

function repeatUntilSettled(calculation: Calculation, given: Given): void {
  calculation._executeStep = async function () {
    const shapes = new Map<string, string>();
    const changed = (areas: Areas): SheetRange[] =>
      [...eachArea(areas)].filter(({ unitId, sheetId, range }) => {
        const anchor = `${unitId} ${sheetId} ${range.startRow} ${range.startColumn}`;
        const shape = `${range.endRow} ${range.endColumn}`;
        if (shapes.get(anchor) === shape) return false;
        shapes.set(anchor, shape);
        return true;
      });
    changed(given.getArrayFormulaRange());
    for (let pass = 1; pass <= mostPasses; pass++) {
      const state = await this._apply(pass > 1);
      if (!state) return pass > 1 || undefined;
      const dirty = changed(state.arrayFormulaRange).flatMap(allButAnchor);
      if (dirty.length === 0) break;
      FORMULA_REF_TO_ARRAY_CACHE.clear();
      CELL_INVERTED_INDEX_CACHE.clear();
      given.loadDirtyRangesAndExcludedCell(dirty, {});
      // A forced calculation would run every formula again in each pass.
      given._forceCalculate = false;
    }
    return true;
  };
}

function* eachArea(areas: Areas): Generator<SheetRange> {
  for (const [unitId, sheets] of Object.entries(areas ?? {})) {
    for (const [sheetId, rows] of Object.entries(sheets ?? {})) {
      for (const line of Object.values(rows ?? {})) for (const range of Object.values(line ?? {})) if (range) yield { unitId, sheetId, range };
    }
  }
}

/** Readers of the anchor itself have followed already. */
function allButAnchor({ unitId, sheetId, range }: SheetRange): SheetRange[] {
  const { startRow, startColumn, endRow, endColumn } = range;
  const pieces: SheetRange[] = [];
  if (endColumn > startColumn) pieces.push({ unitId, sheetId, range: { startRow, endRow: startRow, startColumn: startColumn + 1, endColumn } });
  if (endRow > startRow) pieces.push({ unitId, sheetId, range: { startRow: startRow + 1, endRow, startColumn, endColumn } });
  return pieces;
}
