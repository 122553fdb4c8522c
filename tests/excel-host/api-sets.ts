/**
 * Which requirement set each member of Excel's API came with, from the marks “[Api set: ExcelApi 1.7]” in Microsoft's own type declarations.
 * The stand-in refuses whatever the sets of the manifest do not hold.
 */
import { readFileSync } from "node:fs";
import ts from "typescript";

/** "Range.getCell" and "Range" itself, each with its mark, such as "ExcelApi 1.1". */
export type ApiSets = Readonly<Record<string, string>>;

export function readApiSets(): ApiSets {
  const file = "node_modules/@types/office-js/index.d.ts";
  const source = ts.createSourceFile(file, readFileSync(file, "utf8"), ts.ScriptTarget.Latest);
  const sets: Record<string, string> = {};
  for (const statement of source.statements) {
    if (!ts.isModuleDeclaration(statement) || statement.name.text !== "Excel" || !statement.body || !ts.isModuleBlock(statement.body)) continue;
    for (const declaration of statement.body.statements) {
      if (!ts.isClassDeclaration(declaration) || !declaration.name) continue;
      const name = declaration.name.text;
      const whole = markOf(declaration, source);
      if (whole !== undefined) sets[name] = whole;
      for (const member of declaration.members) {
        if (!member.name || !ts.isIdentifier(member.name)) continue;
        // Overloads and read-only pairs are declared more than once; the first mark is the earliest.
        const mark = markOf(member, source);
        if (mark !== undefined) sets[`${name}.${member.name.text}`] ??= mark;
      }
    }
  }
  return sets;
}

function markOf(node: ts.Node, source: ts.SourceFile): string | undefined {
  const comment = source.text.slice(node.getFullStart(), node.getStart(source));
  return /\[Api set: ([^\]]+?)\.?\s*\]/.exec(comment)?.[1];
}
