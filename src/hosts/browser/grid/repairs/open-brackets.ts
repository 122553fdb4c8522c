/**
 * What is wrong: a square bracket that is still open in a formula, as while a person types a reference to a table, stays open for every
 * formula that is read afterwards.
 * How it shows: after =Shots[ was read anywhere, =SUM(1,2) is not split at its comma.
 */
import { LexerTreeBuilder } from "@univerjs/engine-formula";

export function closeBracketsBeforeEachFormula(): void {
  const reader = LexerTreeBuilder.prototype as unknown as { _resetTemp(): void; _squareBracketState: number };
  const reset = reader._resetTemp;
  reader._resetTemp = function (this: typeof reader) {
    reset.call(this);
    this._squareBracketState = 0;
  };
}
