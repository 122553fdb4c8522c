/**
 * Formulas of ready sheets in the forms that Google Sheets knows, by its function list (support.google.com/docs/table/25273): no references to
 * columns of tables, so areas of cells instead; ARRAYFORMULA around what calculates with lists; VLOOKUP in place of INDEX with a list of rows,
 * as INDEX takes one row there; HSTACK in place of CHOOSE over a list of places; IFERROR around FILTER, which has no third argument there.
 */
import { isFunctionName, partsOf, type Part } from "../../sheet/formula-text";
import { absolute, address, placeOf, referenceTo, sheetPrefix } from "../../sheet/references";
import { namespace } from "../../sheet/spelling";
import type { DescribedTable } from "../../ready-sheets/sheet-description";

/** Tables by their names in lower case, with the sheet that each stands on. */
export type Tables = ReadonlyMap<string, { readonly sheet: string; readonly table: DescribedTable }>;

/** Where a formula stands. */
export interface Standing {
  readonly sheet: string;
  readonly row: number;
}

/** A piece of text, a call of a function, or a bracket without one (named ""). */
type Node = string | Call;
interface Call {
  readonly name: string;
  readonly args: readonly Nodes[];
}
type Nodes = readonly Node[];

/** The formula with "=", ready to be set. */
export function formulaForGoogle(formula: string, tables: Tables, standing: Standing): string {
  const nodes = new Reader(withAreas(partsOf(formula), tables, standing)).read();
  const text = spelled(nodes);
  return isList(nodes) && !isBareCall(nodes) ? `=ARRAYFORMULA(${text})` : `=${text}`;
}

function withAreas(parts: readonly Part[], tables: Tables, standing: Standing): Part[] {
  const result: Part[] = [];
  parts.forEach((part, index) => {
    const known = parts[index + 1]?.kind === "structured" ? tables.get(part.text.toLowerCase()) : undefined;
    if (part.kind === "name" && known) result.push({ kind: "reference", text: areaOf(parts[index + 1]!.text, known, standing) });
    else if (part.kind !== "structured" || !tables.has(parts[index - 1]?.text.toLowerCase() ?? "")) result.push(part);
  });
  return result;
}

/** As in [Dose], [[Dose]:[Time]] and [[#This Row],[Dose]]; ready sheets use no others. */
function areaOf(reference: string, { sheet, table }: { readonly sheet: string; readonly table: DescribedTable }, standing: Standing): string {
  const [, isOwn, first, last = first] = /^\[(?:(\[#This Row\],)?\[([^\]]*)\](?::\[([^\]]*)\])?|[^[\]]*)\]$/.exec(reference) ?? [];
  const { row: top, column: left } = placeOf(table.at)!;
  const columnOf = (heading: string | undefined): number => {
    const place = table.columns.findIndex((column) => column.heading === heading);
    if (place < 0) throw new Error(`The table ${table.name} has no column ${String(heading)}.`);
    return left + place;
  };
  const plain = reference.slice(1, -1);
  const [from, to] = first === undefined ? [columnOf(plain), columnOf(plain)] : [columnOf(first), columnOf(last)];
  const prefix = sheet === standing.sheet ? "" : sheetPrefix(sheet);
  if (isOwn) return prefix + address(standing.row, from).replace(/^/, "$");
  return prefix + absolute(referenceTo({ top: top + 1, bottom: top + table.rows, left: from, right: to }));
}

/** Formulas as calls in calls. */
class Reader {
  private at = 0;

  constructor(private readonly parts: readonly Part[]) {}

  read(): Nodes {
    const nodes: Node[] = [];
    let braces = 0;
    for (; this.at < this.parts.length; this.at++) {
      const { text } = this.parts[this.at]!;
      if (text === "{") braces++;
      else if (text === "}") braces--;
      if (isFunctionName(this.parts, this.at)) {
        const name = text;
        while (this.parts[++this.at]!.text !== "(");
        nodes.push({ name, args: this.arguments() });
      } else if (text === "(") nodes.push({ name: "", args: this.arguments() });
      else if (braces === 0 && (text === ")" || text === ",")) break;
      else nodes.push(text);
    }
    return nodes;
  }

  /** From the opening bracket on; ends on the closing one. */
  private arguments(): Nodes[] {
    const args: Nodes[] = [];
    do {
      this.at++;
      args.push(this.read());
    } while (this.parts[this.at]?.text === ",");
    return args.length === 1 && args[0]!.length === 0 ? [] : args;
  }
}

/** These make one value of a list. */
const collecting = new Set(
  `AND AVERAGE COLUMNS COUNT COUNTA COUNTBLANK COUNTIF LARGE MATCH MAX MEDIAN MIN NOT OR ROWS SMALL STDEV SUM SUMIF SUMPRODUCT TEXTJOIN VLOOKUP`.split(/\s+/),
);
/** These make a list of what is none. */
const listing = new Set(["SEQUENCE", "FILTER", "UNIQUE", "SORT"]);

function isList(nodes: Nodes): boolean {
  return nodes.some((node, index) => {
    if (typeof node === "string") return node === "{" || isArea(node) || (nodes[index + 1] === ":" && typeof nodes[index + 2] === "string");
    if (listing.has(node.name)) return true;
    if (node.name === "INDEX") return node.args.slice(1).some(isList);
    // Whether the list lies inside what collects it, ARRAYFORMULA is needed where it is calculated there.
    if (collecting.has(node.name)) return node.args.some((arg) => isList(arg) && !isBare(arg));
    return node.args.some(isList);
  });
}

function isArea(text: string): boolean {
  return /\$?[A-Z]{1,3}\$?\d+:\$?[A-Z]{1,3}\$?\d+$/.test(text);
}

/** A reference, or a value as it stands. */
function isBare(nodes: Nodes): boolean {
  return nodes.every((node) => typeof node === "string" && !/^[-+*/^&=<>{}]$/.test(node));
}

/** One of ours with nothing calculated in its arguments: it reads areas by itself. */
function isBareCall(nodes: Nodes): boolean {
  const [only] = nodes;
  return nodes.length === 1 && typeof only !== "string" && only!.name.startsWith(`${namespace}_`) && only!.args.every(isBare);
}

function spelled(nodes: Nodes): string {
  return nodes.map((node) => (typeof node === "string" ? node : spelledCall(node))).join("");
}

function spelledCall({ name, args }: Call): string {
  const texts = args.map(spelled);
  const [first, second, third] = texts;
  if (name === "FILTER" && texts.length === 3) return `IFERROR(FILTER(${first!},${second!}),${third!})`;
  if (name === "CHOOSE" && first!.startsWith("{")) return `HSTACK(${texts.slice(1).join(",")})`;
  if (name === "INDEX" && args.slice(1).some(isList)) {
    const column = third ?? "1";
    if (isList(args[1]!)) return `VLOOKUP(${second!},HSTACK(SEQUENCE(ROWS(${first!})),${first!}),${column}+1,FALSE)`;
    return `HLOOKUP(${column},VSTACK(SEQUENCE(1,COLUMNS(${first!})),${first!}),${second!}+1,FALSE)`;
  }
  return `${name}(${texts.join(",")})`;
}
