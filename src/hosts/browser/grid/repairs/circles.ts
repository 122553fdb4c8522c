/**
 * What is wrong: formulas that refer to one another in a circle are calculated once, from whatever their cells held before.
 * How it shows: with =B1+1 in A1 and =A1*2 in B1 there stand 3 and 2, or other numbers, as the formulas were typed.
 * Here each formula of a circle gives an error, and the reason in words. Functions that only ask where a cell lies, or find it while they
 * are calculated, do not show the engine a circle that is one, so theirs are left as they are.
 */
import { ErrorType, ErrorValueObject, IFormulaDependencyGenerator, IDependencyManagerService, IFormulaRuntimeService } from "@univerjs/engine-formula";
import type { Injector } from "@univerjs/core";

interface Tree {
  readonly treeId: number;
  readonly unitId: string;
  readonly subUnitId: string;
  readonly row: number;
  readonly column: number;
  readonly formula: string;
  toRTreeItem(): unknown;
}

/** What is used here of the engine's services, which do not declare all of it. */
interface Generator {
  readonly _dependencyTreeCache: ReadonlyMap<number, Tree>;
  _checkIsCycleDependency(trees: readonly Tree[]): boolean;
}
interface Dependencies {
  searchDependency(places: unknown): ReadonlySet<number>;
}
interface Running {
  readonly currentUnitId: string;
  readonly currentSubUnitId: string;
  readonly currentRow: number;
  readonly currentColumn: number;
  setRuntimeData(result: unknown): void;
}

const placesOnly = /\b(?:ROWS?|COLUMNS?|OFFSET|INDIRECT|ISFORMULA|FORMULATEXT|ISREF|CELL|SHEETS?|AREAS)\(/i;

export function tellCircles(injector: Injector): void {
  const generator = injector.get(IFormulaDependencyGenerator) as unknown as Generator;
  const dependencies = injector.get(IDependencyManagerService) as unknown as Dependencies;
  const running = injector.get(IFormulaRuntimeService) as unknown as Running;
  let inCircle: ReadonlySet<string> = new Set();
  generator._checkIsCycleDependency = function (trees) {
    const readers = (tree: Tree) => [...dependencies.searchDependency(tree.toRTreeItem())].flatMap((id) => this._dependencyTreeCache.get(id) ?? []);
    const circles = circlesOf(trees, readers).filter((circle) => !circle.some(({ formula }) => placesOnly.test(formula)));
    inCircle = new Set(circles.flat().map(({ unitId, subUnitId, row, column }) => keyOf(unitId, subUnitId, row, column)));
    // Calculating them over and over comes to nothing.
    return false;
  };
  const set = running.setRuntimeData;
  running.setRuntimeData = function (result) {
    const { currentUnitId, currentSubUnitId, currentRow, currentColumn } = this;
    const isInCircle = inCircle.size > 0 && inCircle.has(keyOf(currentUnitId, currentSubUnitId, currentRow, currentColumn));
    set.call(this, isInCircle ? ErrorValueObject.create(ErrorType.CYCLE) : result);
  };
}

function keyOf(unitId: string, sheetId: string, row: number, column: number): string {
  return `${unitId} ${sheetId} ${row} ${column}`;
}

interface Visit {
  readonly tree: Tree;
  readonly readers: readonly Tree[];
  next: number;
}

/** The groups of formulas of which each follows from all others of its group, or from itself (Tarjan 1972, SIAM J. Comput. 1(2):146). */
function circlesOf(trees: readonly Tree[], readersOf: (tree: Tree) => readonly Tree[]): Tree[][] {
  const circles: Tree[][] = [];
  const order = new Map<number, number>();
  const lowest = new Map<number, number>();
  const open: Tree[] = [];
  const isOpen = new Set<number>();
  const path: Visit[] = [];
  const enter = (tree: Tree) => {
    order.set(tree.treeId, order.size);
    lowest.set(tree.treeId, order.get(tree.treeId)!);
    open.push(tree);
    isOpen.add(tree.treeId);
    path.push({ tree, readers: readersOf(tree), next: 0 });
  };
  const reach = (tree: Tree, place: number) => lowest.set(tree.treeId, Math.min(lowest.get(tree.treeId)!, place));
  for (const start of trees) {
    if (!order.has(start.treeId)) enter(start);
    for (let visit = path.at(-1); visit; visit = path.at(-1)) {
      const reader = visit.readers[visit.next++];
      if (reader && !order.has(reader.treeId)) enter(reader);
      else if (reader) {
        if (isOpen.has(reader.treeId)) reach(visit.tree, order.get(reader.treeId)!);
      } else {
        path.pop();
        const { tree, readers } = visit;
        if (path.length > 0) reach(path.at(-1)!.tree, lowest.get(tree.treeId)!);
        if (lowest.get(tree.treeId) !== order.get(tree.treeId)) continue;
        const group = open.splice(open.lastIndexOf(tree));
        for (const { treeId } of group) isOpen.delete(treeId);
        if (group.length > 1 || readers.includes(tree)) circles.push(group);
      }
    }
  }
  return circles;
}
