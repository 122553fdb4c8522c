import { readFileSync } from "node:fs";
import ts from "typescript";
import { describe, expect, it } from "vitest";
import { declarationFiles, readDeclarations } from "../scripts/read-declarations.ts";
import { quantities, type Quantity } from "../shared/quantities.ts";
import { units } from "../shared/units.ts";

/** What Excel's metadata reader lets pass in silence, and what our own rules ask of a comment. */
const declarations = await readDeclarations();
const meanings = meaningsOfQuantities();

it("no two functions share a name, and none differs from another only by a dot", () => {
  const names = declarations.map(({ name }) => name);
  expect(new Set(names).size).toBe(names.length);
  expect(new Set(names.map((name) => name.replaceAll(".", "_"))).size).toBe(names.length);
});

it("every exported function of src/functions is declared as a worksheet function", () => {
  const exported = declarationFiles().flatMap((file) => [...readFileSync(file, "utf8").matchAll(/^export function (\w+)/gm)].map((match) => match[1]));
  expect(declarations.map(({ exportName }) => exportName).sort()).toEqual(exported.sort());
});

it("every function file is exported by the bundle", () => {
  const index = readFileSync("src/functions/index.ts", "utf8");
  for (const file of declarationFiles()) expect(index).toContain(`export * from "./${file.replace(/^.*\//, "").replace(/\.ts$/, "")}"`);
});

describe.each(declarations)("$name", (declaration) => {
  const { name, exportName, topic, parameters } = declaration;
  const text = readFileSync(`src/functions/${topic}.ts`, "utf8");
  const signature = new RegExp(`export function ${exportName}\\(([^)]*)\\): any\\[\\]\\[\\] \\{`).exec(text);

  it("has a name that Excel takes", () => {
    expect(name).toMatch(/^[A-Z][A-Z0-9]{2,}(\.[A-Z][A-Z0-9]+)?$/);
    expect(name).not.toMatch(/^[A-Z]{1,3}[0-9]{1,7}$/);
    expect(exportName).toBe(name.replaceAll(".", "_"));
  });

  it("takes and gives ranges, without default initialisers, which Excel never runs", () => {
    expect(signature?.[1]).toBeDefined();
    const declared = signature![1]!.split(",").map((it) => it.trim()).filter(Boolean);
    expect(declared.map((it) => it.replace(/\?$/, ""))).toEqual(parameters.map((it) => `${it.argument}${it.optional ? "?" : ""}: any[][]`));
    const firstOptional = parameters.findIndex((it) => it.optional);
    if (firstOptional >= 0) expect(parameters.slice(firstOptional).every((it) => it.optional)).toBe(true);
  });

  it("says what it is in one short sentence, what it gives, its equation and its source", () => {
    expect(declaration.description).toMatch(/^[A-Z].*\.$/);
    expect(declaration.description.length).toBeLessThanOrEqual(250);
    expect(declaration.returns).toMatch(/\.$/);
    expect(declaration.equation.length).toBeGreaterThan(0);
    expect(declaration.source.length).toBeGreaterThan(0);
    // What somebody would type into the search who does not know the name.
    expect(declaration.everyday).toMatch(/^[^,]+(, [^,]+)+$/);
    expect(declaration.since).toMatch(/^\d+\.\d+\.\d+$/);
  });

  it.each(parameters)("describes $name in the words and the unit of its quantity", ({ argument: parameter, description, optional }) => {
    expect(description).toMatch(/\.$/);
    if (optional && !/out\.$|blank\.$/.test(description)) expect(description).toMatch(/if left out/);
    const shared = (quantities as Record<string, Quantity>)[parameter];
    // An argument that stands for another quantity has words of its own.
    if (!shared || bodyOf(text, exportName).includes(`(${parameter}, "`)) return;
    expect(description.startsWith(meanings.get(parameter)!)).toBe(true);
    const unit = "measure" in shared && shared.measure ? Object.values(units[shared.measure])[0]!.symbol : "unit" in shared ? shared.unit : undefined;
    if (unit) expect(description).toContain(unit);
  });
});

it("says of every quantity what it means", () => {
  expect([...meanings.keys()].sort()).toEqual(Object.keys(quantities).sort());
});

/** What the comment above each quantity says, without its full stop. */
function meaningsOfQuantities(): Map<string, string> {
  const file = "shared/quantities.ts";
  const source = ts.createSourceFile(file, readFileSync(file, "utf8"), ts.ScriptTarget.Latest, true);
  const meanings = new Map<string, string>();
  const visit = (node: ts.Node): void => {
    if (ts.isPropertyAssignment(node) && ts.isObjectLiteralExpression(node.initializer)) {
      const comment = ts.getJSDocCommentsAndTags(node)[0]?.comment;
      if (typeof comment === "string") meanings.set(node.name.getText(source), comment.replace(/\.$/, ""));
    } else ts.forEachChild(node, visit);
  };
  visit(source);
  return meanings;
}

function bodyOf(text: string, exportName: string): string {
  const start = text.indexOf(`export function ${exportName}(`);
  return text.slice(start, text.indexOf("\n}", start));
}
