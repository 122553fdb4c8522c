/**
 * What is wrong: in a reference to a column of a table the engine reads brackets, round brackets and a few other signs as signs of the formula,
 * knows no apostrophe before a sign, and tells capitals from small letters, in headings as in names of tables.
 * How it shows: with a column "Dose (g)", =SUM(Shots[Dose (g)]) is #VALUE!; with a column "dose", =SUM(Shots[Dose]) is #NAME?.
 * Here the engine gets headings of letters and digits alone, made alike from the headings of tables and from those in formulas.
 */
import { Lexer, LexerTreeBuilder, SuperTableService } from "@univerjs/engine-formula";
import { joined, partsOf } from "../../../../sheet/formula-text";
import { withEachHeading } from "../../../../xlsx/structured-reference";

interface Reader {
  _nodeMaker(formula: string, ...more: unknown[]): unknown;
}

interface Tables {
  readonly _tableMap: Map<string, Map<string, unknown>>;
}

/** Names that differ in capitals alone are the same. */
class AnyCase<T> extends Map<string, T> {
  override get(name: string): T | undefined {
    return super.get(this.spelled(name));
  }

  override has(name: string): boolean {
    return super.has(this.spelled(name));
  }

  override set(name: string, value: T): this {
    return super.set(this.spelled(name), value);
  }

  override delete(name: string): boolean {
    return super.delete(this.spelled(name));
  }

  private spelled(name: string): string {
    if (super.has(name)) return name;
    const lower = name.toLowerCase();
    for (const known of this.keys()) if (known.toLowerCase() === lower) return known;
    return name;
  }
}

export function readHeadingsAsSpelled(): void {
  let calculating = false;
  const lexer = Lexer.prototype;
  const build = lexer.treeBuilder;
  lexer.treeBuilder = function (formula, inOrderOfCalculation) {
    calculating = true;
    try {
      return build.call(this, formula, inOrderOfCalculation);
    } finally {
      calculating = false;
    }
  };
  // Also the texts of names go through here, once they stand in the formula.
  const reader = LexerTreeBuilder.prototype as unknown as Reader;
  const read = reader._nodeMaker;
  reader._nodeMaker = function (formula, ...more) {
    return read.call(this, calculating && formula.includes("[") ? withPlainHeadings(formula) : formula, ...more);
  };
  const tables = SuperTableService.prototype;
  const register = tables.registerTable;
  tables.registerTable = function (unitId, tableName, reference) {
    const { _tableMap: byWorkbook } = this as unknown as Tables;
    if (!byWorkbook.has(unitId)) byWorkbook.set(unitId, new AnyCase());
    const titleMap = new Map(reference.titleMap);
    for (const [heading, place] of reference.titleMap) {
      const plain = plainHeading(heading);
      if (!titleMap.has(plain)) titleMap.set(plain, place);
    }
    register.call(this, unitId, tableName, { ...reference, titleMap });
  };
}

function withPlainHeadings(formula: string): string {
  const parts = partsOf(formula);
  return joined(
    parts.map((part, index) => {
      const isOfTable = part.kind === "structured" && parts[index - 1]?.kind === "name";
      return isOfTable ? { ...part, text: withEachHeading(part.text, plainHeading) } : part;
    }),
  );
}

/**
 * Signs are spelled by their numbers between letters that no heading has. Names are put into a formula after it was read once, and it is read
 * again then: what is plain already stays as it is.
 */
function plainHeading(heading: string): string {
  return heading.trim().toLowerCase().replace(/[^\p{L}\p{N}]/gu, (sign) => `ǂ${sign.codePointAt(0)!.toString(16)}ǂ`);
}
