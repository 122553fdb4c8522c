/**
 * The text of a formula in parts, so that names and references can be changed without touching texts in quotes.
 * It knows only what is needed to tell these parts apart; the host parses formulas.
 */
import { mostColumns, columnIndex, columnName } from "./references";

export type PartKind = "text" | "sheet" | "name" | "reference" | "structured" | "other";

export interface Part {
  readonly kind: PartKind;
  readonly text: string;
}

/**
 * text: "…" with its quotes. sheet: the sheet of a reference with its !. reference: A1, $A$1, A:A or 1:1 piece by piece.
 * name: a function, a defined name or TRUE. structured: […] with everything inside. other: numbers, operators, brackets, spaces, errors.
 */
const partPattern =
  /("(?:[^"]|"")*")|('(?:[^']|'')+'!|[\p{L}_\\][\p{L}\p{N}_.\\]*!)|(#[A-Z/0]+[!?A]|\d+(?:\.\d+)?[eE][+-]?\d+)|(\$?[A-Za-z]{1,3}\$?[1-9]\d{0,6}(?![\w.(])|\$?[A-Za-z]{1,3}(?=:\$?[A-Za-z]{1,3}(?![\w.(]))|\$?[1-9]\d{0,6}(?=:\$?[1-9]\d{0,6}(?![\w.]))|(?<=:)\$?(?:[A-Za-z]{1,3}(?![\w.(])|[1-9]\d{0,6}(?![\w.])))|([\p{L}_\\][\p{L}\p{N}_.\\?]*)/uy;

export function partsOf(formula: string): Part[] {
  const parts: Part[] = [];
  let at = 0;
  while (at < formula.length) {
    if (formula[at] === "[") {
      const end = endOfBrackets(formula, at);
      parts.push({ kind: "structured", text: formula.slice(at, end) });
      at = end;
      continue;
    }
    partPattern.lastIndex = at;
    const match = partPattern.exec(formula);
    if (!match) {
      const digits = /^[\d.]+/.exec(formula.slice(at, at + 40))?.[0] ?? formula[at]!;
      parts.push({ kind: "other", text: digits });
      at += digits.length;
      continue;
    }
    const [text, quoted, sheet, other, reference] = match;
    const isReference = reference !== undefined && isOnSheet(reference);
    parts.push({ kind: quoted ? "text" : sheet ? "sheet" : other ? "other" : isReference ? "reference" : "name", text });
    at += text.length;
  }
  return parts;
}

/** Names such as XYZ1 look like a cell, but lie beyond the last column. */
function isOnSheet(reference: string): boolean {
  const column = /^\$?([A-Za-z]*)/.exec(reference)![1]!;
  return column.length < 3 || columnIndex(column) < mostColumns;
}

export function joined(parts: readonly Part[]): string {
  return parts.map((part) => part.text).join("");
}

/** Whether the part at this place is the name of a function: a bracket follows. */
export function isFunctionName(parts: readonly Part[], index: number): boolean {
  if (parts[index]?.kind !== "name") return false;
  for (let next = index + 1; next < parts.length; next++) {
    const text = parts[next]!.text;
    if (text.trim() !== "") return text.startsWith("(");
  }
  return false;
}

/** The formula as it reads when filled from its cell to another: references without $ move along; one that leaves the sheet becomes #REF!. */
export function filled(formula: string, rows: number, columns: number): string {
  return joined(partsOf(formula).map((part) => (part.kind === "reference" ? { ...part, text: movedReference(part.text, rows, columns) } : part)));
}

function movedReference(reference: string, rows: number, columns: number): string {
  const [, columnLock = "", column = "", rowLock = "", row = ""] = /^(\$?)([A-Za-z]*)(\$?)(\d*)$/.exec(reference) ?? [];
  const rowIsLocked = rowLock === "$" || (column === "" && columnLock === "$");
  const newColumn = column === "" || columnLock === "$" ? column : columnName(columnIndex(column) + columns);
  const newRow = row === "" || rowIsLocked ? row : String(Number(row) + rows);
  if (newColumn === undefined || (row !== "" && Number(newRow) < 1)) return "#REF!";
  return `${columnLock}${newColumn}${rowLock}${newRow}`;
}

function endOfBrackets(text: string, start: number): number {
  let depth = 0;
  for (let at = start; at < text.length; at++) {
    // An apostrophe takes the special meaning from the character after it.
    if (text[at] === "'") at++;
    else if (text[at] === "[") depth++;
    else if (text[at] === "]" && --depth === 0) return at + 1;
  }
  return text.length;
}
