/**
 * Reads what the comments in src/functions say: what Excel's own metadata reader understands, and this project's further tags.
 * The build, the help pages and the tests all read the functions through here.
 */
import { readdirSync, readFileSync } from "node:fs";
import { basename, join } from "node:path";
import { generateCustomFunctionsMetadata } from "custom-functions-metadata";
import ts from "typescript";
import type { QuantityName } from "../shared/quantities.ts";
import type { CatalogueColumns, CatalogueEntry, DocumentedFunction } from "../src/help/catalogue.ts";

const folder = "src/functions";

/** The files that declare worksheet functions, one a topic. */
export function declarationFiles(): string[] {
  return readdirSync(folder).filter((name) => name.endsWith(".ts") && name !== "index.ts").map((name) => join(folder, name));
}

export interface Declaration extends DocumentedFunction {
  /** The name of the exported TypeScript function. */
  readonly exportName: string;
  /** What comes out: the shape as src/sheet/results.ts names it, and the quantities of its columns; none where it is laid out by itself. */
  readonly shape: string;
  readonly results: readonly QuantityName[];
}

interface MetadataParameter { name: string; description?: string; optional?: boolean; dimensionality?: string }
interface Metadata { functions: { id: string; description?: string; parameters: MetadataParameter[]; result: { dimensionality?: string } }[] }

export async function readDeclarations(): Promise<Declaration[]> {
  const { metadataJson, associate, errors } = await generateCustomFunctionsMetadata(declarationFiles());
  if (errors.length > 0) throw new Error(errors.join("\n"));
  const metadata = new Map((JSON.parse(metadataJson) as Metadata).functions.map((it) => [it.id, it]));
  return associate.map(({ id, functionName, sourceFileName }) => {
    const { description = "", parameters } = metadata.get(id)!;
    const declared = declaredFunction(sourceFileName, functionName);
    const tags = tagsOf(declared);
    const all = (tag: string): string[] => tags.filter(([name]) => name === tag).map(([, text]) => text);
    const readAs = quantitiesRead(declared);
    const named = parameters.map((it) => ({ name: it.name.toLowerCase(), argument: it.name, quantity: readAs.get(it.name) ?? it.name, description: it.description ?? "", ...(it.optional ? { optional: true as const } : {}) }));
    return {
      name: id,
      topic: basename(sourceFileName, ".ts"),
      exportName: functionName,
      ...resultsOf(declared),
      description,
      takes: named.map((it) => (it.optional ? `[${it.name}]` : it.name)).join(", "),
      parameters: named,
      returns: all("returns").join(" "),
      equation: all("equation").join(" "),
      source: all("source").join(" "),
      range: all("range").join(" "),
      caution: all("caution").join(" "),
      everyday: all("words").join(", "),
      examples: all("example"),
      since: all("since").join(" "),
    };
  });
}

function declaredFunction(file: string, functionName: string): ts.FunctionDeclaration {
  const source = ts.createSourceFile(file, readFileSync(file, "utf8"), ts.ScriptTarget.Latest, true);
  return source.statements.find((it): it is ts.FunctionDeclaration => ts.isFunctionDeclaration(it) && it.name?.text === functionName)!;
}

/** As its one line says: gives.table("setting", "shots"). */
function resultsOf(declared: ts.FunctionDeclaration): Pick<Declaration, "shape" | "results"> {
  const found: Pick<Declaration, "shape" | "results">[] = [];
  const look = (node: ts.Node): void => {
    if (ts.isCallExpression(node) && ts.isPropertyAccessExpression(node.expression) && node.expression.expression.getText() === "gives") {
      found.push({ shape: node.expression.name.text, results: node.arguments.map((it) => (it as ts.StringLiteral).text as QuantityName) });
    }
    ts.forEachChild(node, look);
  };
  look(declared);
  if (found.length > 1) throw new Error(`${declared.name!.text} says more than once what it gives.`);
  return found[0] ?? { shape: "its own", results: [] };
}

/** What arguments are read as that do not have the name of their quantity: each(volume, "watervolume"). */
function quantitiesRead(declared: ts.FunctionDeclaration): Map<string, string> {
  const found = new Map<string, string>();
  const look = (node: ts.Node): void => {
    if (ts.isCallExpression(node)) {
      const [argument, name] = node.arguments;
      if (argument && ts.isIdentifier(argument) && name && ts.isStringLiteral(name)) found.set(argument.text, name.text);
    }
    ts.forEachChild(node, look);
  };
  look(declared);
  return found;
}

function tagsOf(declared: ts.FunctionDeclaration): [string, string][] {
  return ts.getJSDocTags(declared).map((tag) => [tag.tagName.text, (ts.getTextOfJSDocComment(tag.comment) ?? "").replace(/\s+/g, " ").trim()]);
}

/** The part of the declarations that SOURCE() and FUNCTIONS() show. */
export function catalogueOf(declarations: readonly Declaration[]): CatalogueColumns {
  const column = (key: keyof CatalogueEntry): string[] => declarations.map((declaration) => declaration[key]);
  return {
    name: column("name"),
    topic: column("topic"),
    takes: column("takes"),
    description: column("description"),
    equation: column("equation"),
    source: column("source"),
    range: column("range"),
    caution: column("caution"),
    everyday: column("everyday"),
  };
}
