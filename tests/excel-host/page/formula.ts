/** Reads the formulas of the stand-in's cells: numbers, texts, references, operators, array constants and calls. */
export type Operator = "+" | "-" | "*" | "/" | "^" | "&" | "=" | "<>" | "<" | ">" | "<=" | ">=" | ":";

export type Expression =
  | { readonly kind: "value"; readonly value: number | string | boolean }
  | { readonly kind: "error"; readonly code: string }
  | { readonly kind: "array"; readonly rows: readonly (readonly Expression[])[] }
  | { readonly kind: "reference"; readonly sheet?: string; readonly address: string; readonly spill: boolean }
  | { readonly kind: "name"; readonly name: string }
  | { readonly kind: "structured"; readonly table: string; readonly columns: readonly string[] }
  | { readonly kind: "call"; readonly name: string; readonly given: readonly (Expression | undefined)[] }
  | { readonly kind: "negate" | "percent"; readonly of: Expression }
  | { readonly kind: "operation"; readonly operator: Operator; readonly left: Expression; readonly right: Expression };

const token =
  /\s*(?:([A-Za-z_]\w*\[(?:[^[\]]|\[[^\]]*\])*\])|(\d+\.?\d*(?:E[+-]?\d+)?|\.\d+(?:E[+-]?\d+)?)|"((?:[^"]|"")*)"|(#(?:N\/A|DIV\/0!|VALUE!|NUM!|NAME\?|REF!|NULL!))|((?:'(?:[^']|'')+'|[A-Za-z_][\w.]*)!)?(\$?[A-Za-z]{1,3}\$?\d{1,7}(?::\$?[A-Za-z]{1,3}\$?\d{1,7})?)(#?)(?![\w.(])|([A-Za-z_][\w.]*)|(<>|<=|>=|[-+*/^&=<>%(),;{}:]))/y;

interface Token {
  readonly text: string;
  readonly expression?: Expression;
  readonly name?: string;
}

/** The expression of a formula that begins with "=". */
export function readFormula(formula: string): Expression {
  const tokens = split(formula);
  let at = 0;
  const peek = () => tokens[at]?.text ?? "";
  const take = (text: string): boolean => {
    if (peek() !== text || tokens[at]?.expression) return false;
    at += 1;
    return true;
  };
  const need = (text: string) => {
    if (!take(text)) throw new Error(`The formula ${formula} lacks “${text}”.`);
  };

  // Excel's order, loosest first.
  const levels: readonly (readonly Operator[])[] = [["=", "<>", "<", ">", "<=", ">="], ["&"], ["+", "-"], ["*", "/"], ["^"], [":"]];
  const operation = (level: number): Expression => {
    if (level === levels.length) return percent();
    let left = operation(level + 1);
    for (;;) {
      const operator = levels[level]!.find(take);
      if (!operator) return left;
      left = { kind: "operation", operator, left, right: operation(level + 1) };
    }
  };
  const percent = (): Expression => {
    let of = primary();
    while (take("%")) of = { kind: "percent", of };
    return of;
  };
  const primary = (): Expression => {
    if (take("-")) return { kind: "negate", of: percent() };
    if (take("+")) return percent();
    if (take("(")) {
      const inner = operation(0);
      need(")");
      return inner;
    }
    if (take("{")) {
      const rows: Expression[][] = [[percent()]];
      for (;;) {
        if (take(",")) rows[rows.length - 1]!.push(percent());
        else if (take(";")) rows.push([percent()]);
        else break;
      }
      need("}");
      return { kind: "array", rows };
    }
    const found = tokens[at++];
    if (!found) throw new Error(`The formula ${formula} ends too early.`);
    if (found.expression) return found.expression;
    if (found.name === undefined) throw new Error(`The formula ${formula} has “${found.text}” where a value belongs.`);
    if (/^(TRUE|FALSE)$/i.test(found.name) && peek() !== "(") return { kind: "value", value: /^true$/i.test(found.name) };
    if (peek() !== "(") return { kind: "name", name: found.name };
    need("(");
    const given: (Expression | undefined)[] = [];
    if (!take(")")) {
      do given.push([",", ")"].includes(peek()) && !tokens[at]?.expression ? undefined : operation(0));
      while (take(","));
      need(")");
    }
    return { kind: "call", name: found.name, given };
  };

  const expression = operation(0);
  if (at < tokens.length) throw new Error(`The formula ${formula} has “${peek()}” left over.`);
  return expression;
}

function split(formula: string): Token[] {
  const tokens: Token[] = [];
  token.lastIndex = 1;
  while (token.lastIndex < formula.length) {
    if (formula.slice(token.lastIndex).trim() === "") break;
    const start = token.lastIndex;
    const match = token.exec(formula);
    if (!match) throw new Error(`The formula ${formula} cannot be read at “${formula.slice(start)}”.`);
    const [whole, structured, number, text, error, sheet, address, spill, name] = match;
    const written = whole.trim();
    if (structured !== undefined) tokens.push({ text: written, expression: structuredReference(structured) });
    else if (number !== undefined) tokens.push({ text: written, expression: { kind: "value", value: Number(number) } });
    else if (text !== undefined) tokens.push({ text: written, expression: { kind: "value", value: text.replaceAll('""', '"') } });
    else if (error !== undefined) tokens.push({ text: written, expression: { kind: "error", code: error } });
    else if (address !== undefined) tokens.push({ text: written, expression: reference(sheet, address, spill === "#") });
    else if (name !== undefined) tokens.push({ text: written, name });
    else tokens.push({ text: written });
  }
  return tokens;
}

/** Table[Column] or Table[[First]:[Last]]. */
function structuredReference(text: string): Expression {
  const [, table = "", inside = ""] = /^(\w+)\[(.*)\]$/.exec(text) ?? [];
  const columns = inside.startsWith("[") ? [...inside.matchAll(/\[([^\]]*)\]/g)].map(([, column]) => column!) : [inside];
  return { kind: "structured", table, columns };
}

function reference(sheet: string | undefined, address: string, spill: boolean): Expression {
  if (sheet === undefined) return { kind: "reference", address, spill };
  const name = sheet.slice(0, -1);
  return { kind: "reference", sheet: name.startsWith("'") ? name.slice(1, -1).replaceAll("''", "'") : name, address, spill };
}
