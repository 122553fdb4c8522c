/**
 * What is wrong: the engine keeps how it has read the text of a formula, with each name replaced by the cells that it meant then, for every
 * workbook alike. And it changes what it has kept: reading LET or LAMBDA a second time, which happens whenever a table or a name is new,
 * ties its names to values that nobody calculates.
 * How it shows: in a second workbook, =dose reads the cell that bore that name in the first; =LET(x,SUM(Shots[dose]),x) is wrong when it is
 * opened together with its table.
 * Here each formula is read anew; what is made of it is kept by the engine in another place, for each workbook.
 */
import { LexerTreeBuilder } from "@univerjs/engine-formula";

interface Reader {
  treeBuilder(formula: string, inOrderOfCalculation?: boolean, names?: unknown): unknown;
  _suffixExpressionHandler(node: unknown): boolean;
}

export function readEachFormulaAnew(): void {
  const reader = LexerTreeBuilder.prototype as unknown as Reader;
  const build = reader.treeBuilder;
  reader.treeBuilder = function (formula, inOrderOfCalculation = true, names) {
    // Only what is brought into the order of calculation is kept.
    const node = build.call(this, formula, false, names);
    if (!inOrderOfCalculation || typeof node === "string") return node;
    return this._suffixExpressionHandler(node) ? node : "#VALUE!";
  };
}
